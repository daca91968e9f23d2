import type { Nets } from '../circuits/nets.ts';
import { type CircuitAt, signalInto } from '../circuits/signals.ts';
import { later, say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { keyedInMeaning } from '../model/settings.ts';
import {
  type Delays,
  margin,
  marginShare,
  offTimeAt,
  type Skew,
  skew,
  topPulseRate,
} from '../motion/timing.ts';
import { formatNumber } from '../units/index.ts';
import { type AxisParts, controllerOf } from './axis-parts.ts';
import { type Collector, constantInput, figureInput, keyedInput } from './collect.ts';
import type { Derived, Input } from './derived.ts';
import { inputFrom } from './input.ts';

/** What the controller gives and the drive asks for on the pulse and direction lines of an axis; absent when not known. */
interface PulseTiming {
  readonly onTime: Input | undefined;
  readonly offTime: Input | undefined;
  readonly outputRate: Input | undefined;
  readonly inputRate: Input | undefined;
  readonly lead: Input | undefined;
  readonly hold: Input | undefined;
  readonly leastOn: Input | undefined;
  readonly leastOff: Input | undefined;
  readonly leadAsked: Input | undefined;
  readonly holdAsked: Input | undefined;
  readonly lost: Skew;
}

const SOURCE = later`set-up and hold times of the pulse and direction inputs, by definition`;

/** What the margins of the pulse and direction signals are called in the addresses of an axis. */
export const PULSE_MARGINS = ['lead-margin', 'hold-margin', 'on-margin', 'off-margin'] as const;

/** The margins of the pulse and direction signals, and the highest pulse rate that keeps all of them. */
export function deriveTiming(
  machine: Machine,
  nets: Nets,
  parts: AxisParts,
  out: Collector,
): Derived | undefined {
  const timing = readTiming(machine, nets, parts);
  const base = `axes.${parts.axis.name}`;
  const addMargin = (
    name: (typeof PULSE_MARGINS)[number],
    given: Input | undefined,
    asked: Input | undefined,
    lost: number,
    words: [string, string],
  ) => {
    const address = `${base}.timing.${name}`;
    if (!given || !asked) {
      out.lack(address, [given ? [] : [words[0]], asked ? [] : [words[1]]].flat().join(say` and `));
      return;
    }
    const skewed = lost > 0 ? [skewInput(lost)] : [];
    const spare = out.add({
      address,
      unit: 'ns',
      formula: `{${given.name}} − {${asked.name}}${skewed.length > 0 ? ' − {skew of the inputs}' : ''}`,
      inputs: [given, asked, ...skewed],
      si: margin(given.value, asked.value, lost),
      source: SOURCE,
    });
    if (spare) deriveShare(spare, asked, skewed, out);
  };
  addMargin('lead-margin', timing.lead, timing.leadAsked, timing.lost.lead, [
    say`the controller's direction lead`,
    say`the lead that the drive asks for`,
  ]);
  addMargin('hold-margin', timing.hold, timing.holdAsked, timing.lost.hold, [
    say`the controller's direction hold`,
    say`the hold that the drive asks for`,
  ]);
  addMargin('on-margin', timing.onTime, timing.leastOn, timing.lost.on, [
    say`the controller's on-time`,
    say`the drive's least on-time`,
  ]);
  addMargin('off-margin', timing.offTime, timing.leastOff, timing.lost.off, [
    say`the controller's off-time`,
    say`the drive's least off-time`,
  ]);
  return derivePulseRate(base, timing, out);
}

function skewInput(lost: number): Input {
  return constantInput(later`skew of the inputs`, lost, `${formatNumber(lost * 1e9)} ns`);
}

/** A margin as a share of what is asked for, since 500 ns are much of 200 ns and little of 5 us. */
function deriveShare(spare: Derived, asked: Input, skewed: readonly Input[], out: Collector): void {
  const needed = asked.value + skewed.reduce((sum, { value }) => sum + value, 0);
  if (!(needed > 0)) return;
  const margin = inputFrom(spare, later`margin`);
  out.add({
    address: spare.address.replace(/-margin$/, '-share'),
    unit: '%',
    formula:
      skewed.length > 0
        ? `{margin} / ({${asked.name}} + {skew of the inputs})`
        : `{margin} / {${asked.name}}`,
    inputs: [margin, asked, ...skewed],
    si: marginShare(spare.si, needed),
    source: say`definition`,
  });
}

function derivePulseRate(base: string, timing: PulseTiming, out: Collector): Derived | undefined {
  const address = `${base}.pulse-rate-limit`;
  const on = largest(timing.onTime, lengthen(timing.leastOn, timing.lost.on));
  const off = largest(timing.offTime, lengthen(timing.leastOff, timing.lost.off));
  const candidates = [timing.outputRate, timing.inputRate].filter((input) => input !== undefined);
  if (on && off)
    candidates.push(
      constantInput(
        later`1 / (on-time + off-time)`,
        1 / (on.value + off.value),
        `1 / (${on.shown} + ${off.shown})`,
      ),
    );
  const least = candidates.reduce<Input | undefined>((a, b) => (a && a.value <= b.value ? a : b), undefined);
  if (!least) {
    out.lack(address, say`the controller's top rate, or on-time and off-time of controller or drive`);
    return undefined;
  }
  const rate = topPulseRate(
    {
      ...figure('onTime', timing.onTime),
      ...figure('offTime', timing.offTime),
      ...figure('topRate', timing.outputRate),
    },
    {
      ...figure('leastOn', timing.leastOn),
      ...figure('leastOff', timing.leastOff),
      ...figure('topRate', timing.inputRate),
    },
    timing.lost,
  );
  return out.add({
    address,
    unit: 'Hz',
    formula: say`least of ${candidates.map((input) => `{${input.name}}`).join(', ')}`,
    inputs: candidates,
    si: rate,
    source: say`common practice: one period must hold the on-time and the off-time`,
    limit: least.name,
  });
}

function readTiming(machine: Machine, nets: Nets, parts: AxisParts): PulseTiming {
  const { axis, drive } = parts;
  const pulse = drive && signalInto(machine, nets, drive, 'pulse');
  const direction = drive && signalInto(machine, nets, drive, 'direction');
  const controller = pulse?.output?.part ?? controllerOf(machine, axis.name);
  const given = (at: CircuitAt | undefined, key: string, name: string) =>
    at?.part.sheet ? figureInput(name, at.circuit.figures, key, at.part.sheet.file) : undefined;
  const set = (is: string, name: string): Input | undefined =>
    keyedInput(name, controller && keyedInMeaning(machine.file, controller, is, { axis: axis.name }));
  const onTime =
    set('pulse-width', later`pulse width as set`) ??
    given(pulse?.output, 'on-time', later`the controller's on-time`);
  const outputRate = given(pulse?.output, 'top-rate', later`the controller's top rate`);
  return {
    onTime,
    offTime:
      given(pulse?.output, 'off-time', later`the controller's off-time`) ?? restOfPeriod(outputRate, onTime),
    outputRate,
    inputRate: given(pulse?.input, 'top-rate', later`the drive's top rate`),
    lead:
      set('direction-lead', later`direction lead as set`) ??
      given(direction?.output, 'lead', later`the controller's direction lead`),
    hold: given(direction?.output, 'hold', later`the controller's direction hold`),
    leastOn: given(pulse?.input, 'least-on', later`the drive's least on-time`),
    leastOff: given(pulse?.input, 'least-off', later`the drive's least off-time`),
    leadAsked: given(direction?.input, 'lead', later`lead that the drive asks for`),
    holdAsked: given(direction?.input, 'hold', later`hold that the drive asks for`),
    lost: skew(delaysOf(pulse?.input), delaysOf(direction?.input)),
  };
}

/** A controller that states its rate and on-time has what is left of the period for the pause. */
function restOfPeriod(rate: Input | undefined, onTime: Input | undefined): Input | undefined {
  if (!rate || !onTime) return undefined;
  const value = offTimeAt(rate.value, onTime.value);
  return value > 0
    ? constantInput(later`off-time left at the top rate`, value, `(1 / ${rate.shown} − ${onTime.shown})`)
    : undefined;
}

/** How long an input takes to turn on and off; one delay for both where its sheet gives no other, else nothing. */
function delaysOf(at: CircuitAt | undefined): Delays {
  const figure = (key: string) => at?.circuit.figures.quantity(key)?.value.value;
  const delay = figure('delay') ?? 0;
  return { turnOn: figure('on-delay') ?? delay, turnOff: figure('off-delay') ?? delay };
}

/** What a drive asks for, and as much more as the skew of its inputs takes away. */
function lengthen(asked: Input | undefined, lost: number): Input | undefined {
  if (!asked || lost === 0) return asked;
  return { ...asked, value: asked.value + lost, shown: `(${asked.shown} + ${skewInput(lost).shown})` };
}

function largest(a: Input | undefined, b: Input | undefined): Input | undefined {
  return a && b ? (a.value >= b.value ? a : b) : (a ?? b);
}

function figure<K extends string>(key: K, input: Input | undefined): { [P in K]?: number } {
  return input ? ({ [key]: input.value } as { [P in K]?: number }) : {};
}
