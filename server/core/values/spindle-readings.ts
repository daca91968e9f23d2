import type { Machine } from '../model/resolve.ts';
import { correctedTopSpeed, correctReadings, fitGain, worstError } from '../motion/readings.ts';
import type { Fields } from '../shape/fields.ts';
import { formatNumber } from '../units/index.ts';
import { type Collector, constantInput, figureInput } from './collect.ts';
import type { Input } from './derived.ts';

/** A meter and a belt are not much better: with so small an error what is keyed in is right (common practice, no source). */
const CONFIRMED = 0.01;

interface Pair {
  readonly asked: Input;
  readonly seen: Input;
}

/** The worst error of the measured speeds, and the top speed that would correct them. Nothing without readings. */
export function deriveReadings(machine: Machine, keyed: Input | undefined, out: Collector): void {
  const pairs = machine.fields
    .child('spindle')
    .items('readings')
    .flatMap((fields) => readPair(fields, machine.file));
  if (pairs.length === 0) return;
  const readings = pairs.map(({ asked, seen }) => ({ asked: asked.value, seen: seen.value }));
  const si = worstError(readings);
  const worst = pairs.find((_, index) => worstError(readings.slice(index, index + 1)) === si) ?? pairs[0];
  if (worst)
    out.add({
      address: 'spindle.reading-error',
      unit: '%',
      formula: '({speed seen} − {speed asked}) / {speed asked}',
      inputs: [worst.seen, worst.asked],
      si,
      source: `definition of the relative error; the worst of ${pairs.length}`,
    });
  if (!keyed) {
    out.lack('spindle.corrected-top-speed', 'the top speed keyed into the controller');
    return;
  }
  const gain = fitGain(readings);
  out.add({
    address: 'spindle.corrected-top-speed',
    unit: 'rpm',
    formula: `{${keyed.name}} × {gain of the readings}`,
    inputs: [
      keyed,
      constantInput('gain of the readings', gain, formatNumber(gain)),
      ...pairs.flatMap(({ asked, seen }) => [asked, seen]),
    ],
    si: correctedTopSpeed(keyed.value, gain),
    source: 'least squares through zero: the gain is Σ asked × seen / Σ asked²',
  });
  if (Math.abs(gain - 1) <= CONFIRMED)
    out.add({
      address: 'spindle.confirmed-top-speed',
      unit: 'rpm',
      formula: `{${keyed.name}}`,
      inputs: [keyed, ...pairs.flatMap(({ asked, seen }) => [asked, seen])],
      si: keyed.value,
      source: 'what is keyed in agrees with the measured speeds',
    });
  const left = correctReadings(readings, { gain, offset: 0 });
  const still =
    pairs[left.findIndex((_, index) => worstError(left.slice(index, index + 1)) === worstError(left))];
  if (!still) return;
  out.add({
    address: 'spindle.reading-error-left',
    unit: '%',
    formula: '{speed seen} / ({gain of the readings} × {speed asked}) − 1',
    inputs: [still.seen, constantInput('gain of the readings', gain, formatNumber(gain)), still.asked],
    si: worstError(left),
    source: `what a corrected top speed would leave; the worst of ${pairs.length}`,
  });
}

function readPair(fields: Fields, file: string): Pair[] {
  const asked = figureInput('speed asked', fields, 'asked', file);
  const seen = figureInput('speed seen', fields, 'seen', file);
  return asked && seen ? [{ asked, seen }] : [];
}
