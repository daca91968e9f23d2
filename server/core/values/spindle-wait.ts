import { later, say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { keyedInMeaning } from '../model/settings.ts';
import { rampTime, waitMargin } from '../motion/spindle.ts';
import { marginShare } from '../motion/timing.ts';
import { type Collector, figureInput, keyedInput, listNeeds } from './collect.ts';
import type { Derived, Input } from './derived.ts';
import { inputFrom } from './input.ts';
import type { SpindleParts } from './spindle-parts.ts';

/** What the ramp rests on, apart from the speed that is asked for. */
interface Ramp {
  readonly setTime: Input | undefined;
  /** The speed that the converter gives at its top frequency, to which its set time is referred. */
  readonly top: Input | undefined;
  readonly wait: Input | undefined;
}

function readRamp(
  machine: Machine,
  { converter, controller }: SpindleParts,
  out: Pick<Collector, 'get'>,
): Ramp {
  const full = out.get('spindle.top-speed');
  return {
    setTime: keyedInput(later`ramp-up time`, converter && keyedInMeaning(machine.file, converter, 'ramp-up')),
    top: full && inputFrom(full, later`top speed of the converter`),
    wait: keyedInput(later`wait`, controller && keyedInMeaning(machine.file, controller, 'spindle-wait')),
  };
}

/** The time to the wanted top speed, and what is left of the controller's wait when the spindle has come up to it. */
export function deriveWait(machine: Machine, spindle: SpindleParts, out: Collector): void {
  const wanted = figureInput(later`wanted top speed`, spindle.fields, 'top-speed', machine.file);
  deriveWaitAt('', wanted, readRamp(machine, spindle, out), out);
}

/** The same for any speed that a program may ask for. */
export function deriveWaitFor(
  machine: Machine,
  spindle: SpindleParts,
  known: Pick<Collector, 'get'>,
  { suffix, speed }: { readonly suffix: string; readonly speed: Input },
  out: Collector,
): void {
  deriveWaitAt(suffix, speed, readRamp(machine, spindle, known), out);
}

function deriveWaitAt(
  suffix: string,
  speed: Input | undefined,
  { setTime, top, wait }: Ramp,
  out: Collector,
): void {
  const address = (name: string) => `spindle.${name}${suffix}`;
  const isPart = speed !== undefined && top !== undefined && speed.value < top.value;
  const ramp =
    setTime &&
    out.add({
      address: address('ramp-time'),
      unit: 's',
      formula: isPart ? `{ramp-up time} × {${speed.name}} / {${top.name}}` : '{ramp-up time}',
      inputs: isPart ? [setTime, speed, top] : [setTime],
      si: isPart ? rampTime(setTime.value, 0, speed.value, top.value) : setTime.value,
      source: say`frequency converter manuals: the set time is that to the top frequency`,
    });
  if (!ramp || !wait) {
    const needs = listNeeds([
      [ramp, say`the converter's ramp-up time`],
      [wait, say`the controller's wait for the spindle`],
    ]);
    if (!ramp && suffix !== '') out.lack(address('ramp-time'), say`the converter's ramp-up time`);
    out.lack(address('wait-margin'), needs);
    return;
  }
  deriveSpare(address, wait, ramp, out);
}

function deriveSpare(address: (name: string) => string, wait: Input, ramp: Derived, out: Collector): void {
  const needed = inputFrom(ramp, later`ramp time`);
  const spare = out.add({
    address: address('wait-margin'),
    unit: 's',
    formula: '{wait} − {ramp time}',
    inputs: [wait, needed],
    si: waitMargin(wait.value, needed.value),
    source: say`definition`,
  });
  if (!spare || !(needed.value > 0)) return;
  const margin = inputFrom(spare, later`margin`);
  out.add({
    address: address('wait-share'),
    unit: '%',
    formula: '{margin} / {ramp time}',
    inputs: [margin, needed],
    si: marginShare(margin.value, needed.value),
    source: say`definition`,
  });
}
