import { placeOfEnd } from '../circuits/places.ts';
import { reachFromEnd } from '../circuits/reach-from.ts';
import type { CircuitAt } from '../circuits/signals.ts';
import { circuitsOfKind } from '../circuits/supply.ts';
import { slotsTo } from '../circuits/ways.ts';
import { say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { fact } from '../reuse/fact.ts';
import { factOver } from '../reuse/fact-over.ts';
import { formatBest } from '../units/index.ts';
import { supplyVoltage } from './supply.ts';
import { type Draw, keepSameDraws } from './wire-draws.ts';

/**
 * What resistors across a supply draw: hot wires and heaters, through fuses, and through contacts as if these were
 * closed. By Ohm's law, with the wires taken as ideal. A resistor with a lamp or an input behind it does not reach both
 * sides of a supply, and is solved with its circuit.
 */
export const resistorDraws = fact('machine', (machine: Machine): readonly Draw[] =>
  drawsOfResistors(machine).flat(),
);

const drawsOfResistors = factOver(
  'machine',
  (machine: Machine) => circuitsOfKind(machine, 'resistor'),
  (machine: Machine, load): readonly Draw[] => {
    const ohms = load.circuit.figures.quantity('resistance')?.value.value ?? 0;
    const [a, b] = [0, 1].map((index) => placeOfEnd(machine, load, index));
    if (!(ohms > 0) || a === undefined || b === undefined) return [];
    for (const supply of circuitsOfKind(machine, 'power-out')) {
      const draw = drawAcross(machine, load, supply, ohms, [a, b]);
      if (draw) return [draw];
    }
    return [];
  },
  keepSameDraws,
);

function drawAcross(
  machine: Machine,
  load: CircuitAt,
  supply: CircuitAt,
  ohms: number,
  [a, b]: readonly [number, number],
): Draw | undefined {
  const [plus, minus] = [0, 1].map((index) => reachFromEnd(machine, supply, index));
  if (!plus || !minus) return undefined;
  const [there, back] = plus.by.has(a) && minus.by.has(b) ? [a, b] : [b, a];
  const [out, home] = [slotsTo(plus, there), slotsTo(minus, back)];
  const volts = out && home ? supplyVoltage(machine, { supply })?.value : undefined;
  if (!out || !home || volts === undefined) return undefined;
  const amps = volts / ohms;
  const name = say`current of ${load.part.name}`;
  const input = { name, value: amps, shown: formatBest(amps, 'current', 4) };
  return { term: `{${name}}`, input, amps, path: [...out, ...home] };
}
