import { MAINS, type Machine, mainsTerminals, partsWithSheets } from '../model/resolve.ts';
import { terminalId } from '../model/terminal-id.ts';
import type { Link } from '../model/wiring.ts';
import { fact } from '../reuse/fact.ts';
import { gives, signalEnds, takes } from './signal-ends.ts';
import type { CircuitAt } from './signals.ts';
import { circuitsOfKind } from './supply.ts';
import { type Ways, waysOf } from './ways.ts';

/** A signal from one circuit to the next: over wires, or inside a part from what it takes to what it gives. */
export interface Hop {
  readonly from: CircuitAt;
  readonly to: CircuitAt;
  /** The links on the way; none inside a part. */
  readonly links: readonly Link[];
  /** The parts on the way: strips, fuses, resistors, and contacts in line. */
  readonly through: readonly string[];
}

/**
 * Every hop of every signal of a machine. A signal spreads from the live end of what gives it, over links, commons,
 * fuses, resistors and closed contacts, and stops at the rails: whatever a supply feeds directly is no signal.
 */
export const hopsOf = fact('machine', (machine: Machine): readonly Hop[] => {
  return [...wireHops(machine), ...insideHops(machine)];
});

function wireHops(machine: Machine): Hop[] {
  const ways = waysOf(machine);
  const rails = findRails(machine, ways);
  const takersAt = gatherTakers(machine, ways);
  const resistors = gatherResistors(machine, ways);
  return partsWithSheets(machine).flatMap(({ part, sheet }) =>
    [...sheet.circuits.values()].filter(gives).flatMap((circuit) => {
      const from = { part, circuit };
      const starts = signalEnds(circuit).flatMap((end) => ways.placeOf.get(terminalId(part.name, end)) ?? []);
      const reached = spread(ways, resistors, rails, starts, from);
      const found = new Map<string, Hop>();
      for (const [place, path] of reached)
        for (const to of takersAt.get(place) ?? []) {
          // Parts with the same sheet share its circuits, so a circuit alone tells nothing.
          const key = `${to.part.name}\n${to.circuit.name}`;
          if (!found.has(key)) found.set(key, { from, to, ...path });
        }
      return [...found.values()];
    }),
  );
}

/** Places of terminals on which a supply stands whatever anything does. */
function findRails(machine: Machine, ways: Ways): ReadonlySet<number> {
  const mains = mainsTerminals(machine).map((terminal) => terminalId(MAINS, terminal));
  const supplied = circuitsOfKind(machine, 'power-out').flatMap(({ part, circuit }) =>
    circuit.ends.map((end) => terminalId(part.name, end.text)),
  );
  const rails = new Set([...mains, ...supplied].flatMap((terminal) => ways.placeOf.get(terminal) ?? []));
  // The set grows while it is walked through.
  for (const place of rails)
    for (const index of ways.at[place] ?? []) {
      const way = ways.all[index];
      if (way && index < ways.unconditional) rails.add(way.a === place ? way.b : way.a);
    }
  return rails;
}

function gatherTakers(machine: Machine, { placeOf }: Ways): ReadonlyMap<number, readonly CircuitAt[]> {
  const takers = new Map<number, CircuitAt[]>();
  for (const { part, sheet } of partsWithSheets(machine))
    for (const circuit of sheet.circuits.values()) {
      if (!takes(circuit)) continue;
      for (const end of signalEnds(circuit)) {
        const place = placeOf.get(terminalId(part.name, end));
        if (place !== undefined) takers.set(place, [...(takers.get(place) ?? []), { part, circuit }]);
      }
    }
  return takers;
}

interface Bridge {
  readonly far: number;
  readonly part: string;
}

/** Resistors let a signal through, though no current flows in a line that ends there. */
function gatherResistors(machine: Machine, { placeOf }: Ways): ReadonlyMap<number, readonly Bridge[]> {
  const bridges = new Map<number, Bridge[]>();
  for (const { part, circuit } of circuitsOfKind(machine, 'resistor')) {
    const [a, b] = circuit.ends.map((end) => placeOf.get(terminalId(part.name, end.text)));
    if (a === undefined || b === undefined) continue;
    bridges.set(a, [...(bridges.get(a) ?? []), { far: b, part: part.name }]);
    bridges.set(b, [...(bridges.get(b) ?? []), { far: a, part: part.name }]);
  }
  return bridges;
}

type Path = Pick<Hop, 'links' | 'through'>;

/** What a signal reaches from some places, nearest first, each with the shortest way there. Its own contact is not crossed. */
function spread(
  { all, at }: Ways,
  resistors: ReadonlyMap<number, readonly Bridge[]>,
  rails: ReadonlySet<number>,
  starts: readonly number[],
  own: CircuitAt,
): ReadonlyMap<number, Path> {
  const reached = new Map<number, Path>();
  const add = (place: number, path: Path) => {
    if (!rails.has(place) && !reached.has(place)) reached.set(place, path);
  };
  for (const start of starts) add(start, { links: [], through: [] });
  for (const [place, { links, through }] of reached) {
    for (const { far, part } of resistors.get(place) ?? []) add(far, { links, through: [...through, part] });
    for (const index of at[place] ?? []) {
      const way = all[index];
      if (!way || (way.inside?.circuit === own.circuit && way.inside.part.name === own.part.name)) continue;
      const far = way.a === place ? way.b : way.a;
      const part = way.inside?.part.name;
      add(far, {
        links: way.link ? [...links, way.link] : links,
        through:
          part === undefined || part === own.part.name || through.includes(part)
            ? through
            : [...through, part],
      });
    }
  }
  return reached;
}

/** What a part gives because of what it takes: a drive's currents, a converter's three phases, a relay's contacts. */
function insideHops(machine: Machine): Hop[] {
  return partsWithSheets(machine).flatMap(({ part, sheet }) => {
    const circuits = [...sheet.circuits.values()];
    const hop = (from: string, to: string): Hop[] =>
      circuits
        .filter((circuit) => takes(circuit) && isOf(from, circuit.kind))
        .flatMap((a) =>
          circuits
            .filter((circuit) => isOf(to, circuit.kind))
            .map((b) => ({
              from: { part, circuit: a },
              to: { part, circuit: b },
              links: [],
              through: [],
            })),
        );
    return [
      ...hop('-in', 'phase-out'),
      ...hop('-in', 'three-phase-out'),
      ...hop('coil', 'contact'),
      ...hop('coil', 'changeover'),
    ];
  });
}

/** A kind by its name; `-in` are the inputs for signals, which a supply is not. */
function isOf(wanted: string, kind: string): boolean {
  return wanted === '-in'
    ? kind.endsWith('-in') && !/^(?:power|mains|three-phase)/.test(kind)
    : kind === wanted;
}
