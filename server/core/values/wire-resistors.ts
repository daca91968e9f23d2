import type { CircuitAt } from '../circuits/signals.ts';
import { circuitsOfKind, type Feed } from '../circuits/supply.ts';
import { placeOfEnd, type Reach, reachOf, slotsTo, type Ways, wayNetOf } from '../circuits/ways.ts';
import { say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { fact } from '../reuse/fact.ts';
import { isSameList } from '../same-list.ts';
import { formatBest } from '../units/index.ts';
import { supplyVoltage } from './supply.ts';
import type { Draw } from './wire-draws.ts';

/**
 * What resistors across a supply draw: hot wires and heaters, through fuses, and through contacts as if these were
 * closed. By Ohm's law, with the wires taken as ideal. A resistor with a lamp or an input behind it does not reach both
 * sides of a supply, and is solved with its circuit.
 */
export const resistorDraws = fact('machine', (machine: Machine): readonly Draw[] => {
  const resistors = circuitsOfKind(machine, 'resistor');
  if (resistors.length === 0) return [];
  const ways = wayNetOf(machine);
  return resistors.flatMap((load) => {
    const ohms = load.circuit.figures.quantity('resistance')?.value.value ?? 0;
    const [a, b] = [placeOfEnd(ways, load, 0), placeOfEnd(ways, load, 1)];
    if (!(ohms > 0) || a === undefined || b === undefined) return [];
    for (const supply of circuitsOfKind(machine, 'power-out')) {
      const draw = drawAcross(machine, ways, load, supply, ohms, [a, b]);
      if (draw) return [draw];
    }
    return [];
  });
});

const kept = new WeakMap<object, { readonly read: readonly unknown[]; readonly draw: Draw }>();

function drawAcross(
  machine: Machine,
  ways: Ways,
  load: CircuitAt,
  supply: CircuitAt,
  ohms: number,
  [a, b]: readonly [number, number],
): Draw | undefined {
  const [plus, minus] = [0, 1].map((index) => reachFrom(ways, supply, index));
  if (!plus || !minus) return undefined;
  const [there, back] = plus.by.has(a) && minus.by.has(b) ? [a, b] : [b, a];
  const paths = [slotsTo(plus, there), slotsTo(minus, back)];
  const [out, home] = paths;
  const feed: Feed = { supply, load, link: undefined };
  const volts = out && home ? supplyVoltage(machine, feed)?.value : undefined;
  if (!out || !home || volts === undefined) return undefined;
  const read = [load.part.name, ohms, volts, out, home];
  const known = kept.get(load.circuit);
  if (known && isSameList(known.read, read)) return known.draw;
  const amps = volts / ohms;
  const name = say`current of ${load.part.name}`;
  const input = { name, value: amps, shown: formatBest(amps, 'current', 4) };
  const draw = { term: `{${name}}`, input, amps, path: [...out, ...home] };
  kept.set(load.circuit, { read, draw });
  return draw;
}

function reachFrom(ways: Ways, supply: CircuitAt, index: number): Reach | undefined {
  const place = placeOfEnd(ways, supply, index);
  return place === undefined ? undefined : reachOf(ways, place);
}
