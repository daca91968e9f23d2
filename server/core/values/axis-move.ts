import { circuitsDoing } from '../circuits/signals.ts';
import { later, say } from '../language/say.ts';
import type { Part } from '../model/machine.ts';
import type { Machine } from '../model/resolve.ts';
import { rampTo, stoppingDistance } from '../motion/profile.ts';
import { type AxisParts, controllerOf } from './axis-parts.ts';
import { type Collector, figureInput, listNeeds } from './collect.ts';
import type { Input } from './derived.ts';

/** The ramp to the wanted feed, and the ways to standstill from it and from the homing feed. */
export function deriveMoves(machine: Machine, parts: AxisParts, out: Collector): void {
  const { axis, rotary } = parts;
  const base = `axes.${axis.name}`;
  const unit = rotary ? 'deg' : 'mm';
  const feed = figureInput(later`wanted feed`, axis.fields, 'feed', machine.file);
  const acceleration = figureInput(later`acceleration`, axis.fields, 'acceleration', machine.file);
  deriveRamp(base, unit, feed, acceleration, out);
  const limits = delays(machine, parts, ['far', 'near']);
  deriveStop({ address: `${base}.stopping-distance`, unit }, feed, acceleration, limits, out);
  const homing = figureInput(later`homing feed`, axis.fields.child('homing'), 'feed', machine.file);
  const switches = axis.fields.child('switches');
  const homes = switches.text('home') ? ['home'] : ['far', 'near'];
  deriveStop(
    { address: `${base}.homing-overrun`, unit },
    homing,
    acceleration,
    delays(machine, parts, homes),
    out,
  );
}

function deriveRamp(
  base: string,
  unit: string,
  feed: Input | undefined,
  acceleration: Input | undefined,
  out: Collector,
): void {
  if (!feed || !acceleration) {
    const needs = listNeeds([
      [feed, say`the feed that you want`],
      [acceleration, say`the acceleration`],
    ]);
    for (const name of ['ramp-time', 'ramp-distance']) out.lack(`${base}.${name}`, needs);
    return;
  }
  const ramp = rampTo(feed.value, acceleration.value);
  const common = { inputs: [feed, acceleration], source: say`textbook, constant acceleration` };
  out.add({
    address: `${base}.ramp-time`,
    unit: 's',
    formula: `{${feed.name}} / {acceleration}`,
    si: ramp.time,
    ...common,
  });
  out.add({
    address: `${base}.ramp-distance`,
    unit,
    formula: `{${feed.name}}² / (2 × {acceleration})`,
    si: ramp.distance,
    ...common,
  });
}

function deriveStop(
  at: { readonly address: string; readonly unit: string },
  feed: Input | undefined,
  acceleration: Input | undefined,
  late: readonly Input[],
  out: Collector,
): void {
  if (!feed || !acceleration) {
    out.lack(
      at.address,
      listNeeds([
        [feed, at.address.endsWith('homing-overrun') ? say`the homing feed` : say`the feed that you want`],
        [acceleration, say`the acceleration`],
      ]),
    );
    return;
  }
  const delay = late.reduce((total, { value }) => total + value, 0);
  const sum = late.map(({ name }) => `{${name}}`).join(' + ');
  const lag = late.length > 1 ? `(${sum})` : sum;
  const braking = `{${feed.name}}² / (2 × {acceleration})`;
  out.add({
    ...at,
    formula: late.length > 0 ? `{${feed.name}} × ${lag} + ${braking}` : braking,
    inputs: [feed, acceleration, ...late],
    si: stoppingDistance(feed.value, acceleration.value, delay),
    source: say`textbook, constant deceleration${late.length > 0 ? '' : '; no delay of switch or input is stated'}`,
  });
}

/** The longest delay of the switches at these places, and the longest of the controller's inputs for them. */
function delays(machine: Machine, { axis }: AxisParts, places: readonly string[]): Input[] {
  const names = places.map((place) => axis.fields.child('switches').text(place)?.value);
  const parts = names.map((name) => (name === undefined ? undefined : machine.parts.get(name)));
  const switches = parts.flatMap((part) => (part ? switchDelays(part) : []));
  const controller = controllerOf(machine, axis.name);
  const inputs = places.flatMap((place) => (controller ? inputDelays(controller, axis.name, place) : []));
  return [longest(switches), longest(inputs)].filter((delay) => delay !== undefined);
}

function switchDelays(part: Part): Input[] {
  const { sheet } = part;
  if (!sheet) return [];
  const name = say`delay of ${part.name}`;
  const stated = figureInput(name, sheet.facts, 'delay', sheet.file);
  const circuits = [...sheet.circuits.values()].map(({ figures }) =>
    figureInput(name, figures, 'delay', sheet.file),
  );
  return [stated, ...circuits].filter((delay) => delay !== undefined);
}

function inputDelays(controller: Part, axis: string, place: string): Input[] {
  const word = place === 'home' ? 'home' : 'limit';
  const file = controller.sheet?.file;
  return circuitsDoing(controller, word, axis)
    .filter(({ does }) => word === 'home' || does?.last === place)
    .flatMap(({ figures }) =>
      file === undefined ? [] : (figureInput(later`delay of the input`, figures, 'delay', file) ?? []),
    );
}

function longest(delays: readonly Input[]): Input | undefined {
  return delays.reduce<Input | undefined>((a, b) => (a && a.value >= b.value ? a : b), undefined);
}
