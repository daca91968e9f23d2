import { later, say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { fitLine, fitTopSpeed, worstError } from '../motion/readings.ts';
import type { Fields } from '../shape/fields.ts';
import { formatNumber } from '../units/index.ts';
import { type Collector, constantInput, figureInput } from './collect.ts';
import type { Input } from './derived.ts';
import { inputFrom } from './input.ts';

/** A meter and a belt are not much better: with so small an error what is keyed in is right (common practice, no source). */
const CONFIRMED = 0.01;

/** The name of the top speed with which a reading was made, where it was noted. */
export const THEN = later`top speed keyed in then`;

/** A measured speed, and the top speed that was keyed in when it was measured. */
interface Pair {
  readonly asked: Input;
  readonly seen: Input;
  readonly then: Input | undefined;
}

/** What measured speeds say of the top speed keyed in: their error, the line through them, and the correction. */
export function deriveReadings(machine: Machine, keyed: Input | undefined, out: Collector): void {
  const pairs = countingPairs(machine, keyed);
  if (pairs.length === 0) return;
  const worst = farthest(pairs, ({ asked, seen }) => seen.value / asked.value - 1);
  out.add({
    address: 'spindle.reading-error',
    unit: '%',
    formula: '({speed seen} − {speed asked}) / {speed asked}',
    inputs: [worst.seen, worst.asked],
    si: worstError([{ asked: worst.asked.value, seen: worst.seen.value }]),
    source: say`definition of the relative error; the worst of ${pairs.length}`,
  });
  if (!keyed) {
    out.lack('spindle.corrected-top-speed', say`the top speed keyed into the controller`);
    return;
  }
  deriveCorrection(pairs, keyed, out);
  deriveLine(pairs, keyed, out);
}

function deriveCorrection(pairs: readonly Pair[], keyed: Input, out: Collector): void {
  const figures = pairs.flatMap(({ asked, seen, then }) => [asked, seen, ...(then ? [then] : [])]);
  const si = fitTopSpeed(
    pairs.map(({ asked, seen, then }) => ({
      asked: asked.value,
      seen: seen.value,
      keyed: (then ?? keyed).value,
    })),
  );
  const gain = constantInput(later`gain of the readings`, si / keyed.value, showGain);
  const isNoted = pairs.some(({ then }) => then !== undefined);
  const corrected = out.add({
    address: 'spindle.corrected-top-speed',
    unit: 'rpm',
    formula: `{${keyed.name}} × {gain of the readings}`,
    inputs: [keyed, gain, ...figures],
    si,
    source: isNoted
      ? say`least squares through zero of the speed seen against asked / top speed keyed in then`
      : say`least squares through zero: the gain is Σ asked × seen / Σ asked²`,
  });
  if (!corrected) return;
  if (Math.abs(gain.value - 1) <= CONFIRMED)
    out.add({
      address: 'spindle.confirmed-top-speed',
      unit: 'rpm',
      formula: `{${keyed.name}}`,
      inputs: [keyed, ...figures],
      si: keyed.value,
      source: say`what is keyed in agrees with the measured speeds`,
    });
  const left = ({ asked, seen, then }: Pair) => (seen.value * (then ?? keyed).value) / (si * asked.value) - 1;
  const still = farthest(pairs, left);
  const ratio = still.then
    ? `{${still.then.name}} / {corrected top speed}`
    : `{${keyed.name}} / {corrected top speed}`;
  out.add({
    address: 'spindle.reading-error-left',
    unit: '%',
    formula: `{speed seen} / {speed asked} × ${ratio} − 1`,
    inputs: [still.seen, still.asked, still.then ?? keyed, inputFrom(corrected, later`corrected top speed`)],
    si: left(still),
    source: say`what a corrected top speed would leave; the worst of ${pairs.length}`,
  });
}

/** Where the line through the readings starts; speeds that differ are needed to tell gain from offset. */
function deriveLine(pairs: readonly Pair[], keyed: Input, out: Collector): void {
  const readings = pairs.map(({ asked, seen, then }) => ({
    asked: (asked.value * keyed.value) / (then ?? keyed).value,
    seen: seen.value,
  }));
  if (readings.every(({ asked }) => asked === readings[0]?.asked)) return;
  const line = fitLine(readings);
  const figures = pairs.flatMap(({ asked, seen }) => [asked, seen]);
  const source = later`line of least squares, speed seen against speed asked (textbook, linear regression)`;
  const gain = out.add({
    address: 'spindle.reading-gain',
    unit: '1',
    formula: say`Σ (asked − mean) × (seen − mean) / Σ (asked − mean)²`,
    inputs: figures,
    si: line.gain,
    source,
  });
  if (!gain) return;
  out.add({
    address: 'spindle.reading-offset',
    unit: 'rpm',
    formula: say`mean of the speeds seen − {gain} × mean of the speeds asked`,
    inputs: [inputFrom(gain, later`gain`), ...figures],
    si: line.offset,
    source,
  });
}

/** Readings that were made with another top speed count only while there are no others. */
function countingPairs(machine: Machine, keyed: Input | undefined): Pair[] {
  const all = machine.fields
    .child('spindle')
    .items('readings')
    .flatMap((fields) => readPair(fields, machine.file));
  const current = all.filter(({ then }) => !then || !keyed || isSameSpeed(then.value, keyed.value));
  return current.length > 0 ? current : all;
}

/** Equal up to what rounding in other units makes. */
function isSameSpeed(a: number, b: number): boolean {
  return Math.abs(a / b - 1) <= 1e-6;
}

function farthest(pairs: readonly Pair[], errorOf: (pair: Pair) => number): Pair {
  return pairs.reduce((a, b) => (Math.abs(errorOf(b)) > Math.abs(errorOf(a)) ? b : a));
}

function readPair(fields: Fields, file: string): Pair[] {
  const asked = figureInput(later`speed asked`, fields, 'asked', file);
  const seen = figureInput(later`speed seen`, fields, 'seen', file);
  const then = figureInput(THEN, fields, 'top-speed', file);
  return asked && seen && asked.value > 0 ? [{ asked, seen, then }] : [];
}

const showGain = (gain: number): string => formatNumber(gain);
