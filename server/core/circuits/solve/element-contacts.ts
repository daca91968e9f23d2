import type { Part } from '../../model/machine.ts';
import type { Circuit } from '../../model/sheet.ts';
import { type Branch, resistor } from './branch.ts';
import type { Mover, Plain } from './element.ts';
import { leakOf, transistor } from './element-outputs.ts';
import { closedAtRest, figure, spanOf } from './figures.ts';
import type { Wired } from './wired.ts';

/** A closed contact is a piece of wire. */
const closed = (a: number, b: number): Branch => ({ kind: 'join', a, b, volts: 0 });

export function makeContact(machine: Wired, part: Part, circuit: Circuit): Plain {
  const isClosed = closedAtRest(machine, part, circuit);
  const through = [closed(0, 1)];
  return {
    rest: isClosed ? through : [],
    operated: isClosed ? [] : through,
    mover: moverOf(part, circuit),
  };
}

/** Common to `closed` at rest, to `open` when operated. */
export function makeChangeover(part: Part, circuit: Circuit): Plain {
  return { rest: [closed(0, 1)], operated: [closed(0, 2)], mover: moverOf(part, circuit) };
}

/** Contacts of a part with a coil follow the coil; those that a part uses for something are its outputs. */
function moverOf(part: Part, circuit: Circuit): Mover {
  const circuits = [...(part.sheet?.circuits.values() ?? [])];
  if (circuits.some(({ kind }) => kind === 'coil')) return 'relay';
  const isOutput = circuit.does !== undefined && part.sheet?.partClass === 'controller';
  return isOutput ? 'output' : 'contact';
}

/**
 * A sensor on three wires. Its output conducts only while the sensor has its supply, and leaks while it is off. What it
 * draws itself is taken as a resistance between plus and minus.
 */
export function makeSensor(machine: Wired, part: Part, circuit: Circuit): Plain {
  const switching = circuit.figures.text('switching')?.value;
  const [from, to] = switching === 'npn' ? [2, 1] : [0, 2];
  const on = [transistor(circuit, from, to)];
  const off = leakOf(circuit, from, to, 3);
  const own = loadOf(circuit, 'draws');
  const isClosed = closedAtRest(machine, part, circuit);
  return {
    rest: [...own, ...(isClosed ? on : off)],
    operated: [...own, ...(isClosed ? off : on)],
    mover: 'sensor',
    fed: {
      plus: 0,
      minus: 1,
      least: Math.max(spanOf(circuit, 'voltage')?.[0] ?? 0, LEAST_SUPPLY),
      dead: own,
    },
    lacks: switching === undefined ? ['switching'] : [],
  };
}

/** Where a sheet states no span, a part is held to be without supply below this; it also stops one wired in reverse. */
const LEAST_SUPPLY = 1;

/** What a part draws from its supply, as a resistance that draws it in the middle of the part's span of voltages. */
export function loadOf(circuit: Circuit, key: 'current' | 'draws'): Branch[] {
  const current = figure(circuit, key) ?? 0;
  const [least, most] = spanOf(circuit, 'voltage') ?? [0, 0];
  const middle = (least + most) / 2;
  return current > 0 && middle > 0 ? [resistor(0, 1, middle / current)] : [];
}

/**
 * A sensor in series with its load, which lives on what leaks through it. The format does not say which of its two
 * leads is plus, so it conducts and leaks either way.
 */
export function makeTwoWireSensor(machine: Wired, part: Part, circuit: Circuit): Plain {
  const on = [transistor(circuit, 0, 1), transistor(circuit, 1, 0)];
  const off = [...leakOf(circuit, 0, 1, 2), ...leakOf(circuit, 1, 0, 3)];
  const isClosed = closedAtRest(machine, part, circuit);
  return { rest: isClosed ? on : off, operated: isClosed ? off : on, mover: 'sensor' };
}
