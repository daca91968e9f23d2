import { expect, it } from 'vitest';
import { findFaults } from '../../../server/core/circuits/solve/faults.ts';
import { findLoads } from '../../../server/core/circuits/solve/loads.ts';
import { BENCH_PARTS } from './bench-parts.ts';
import { inputOf, solveText } from './machines.ts';

/*
 * Chains of contacts so long that they are not solved in all states. A state costs the square of the nodes and 50 for each
 * circuit, of 50 million in all; what is refused is said to be too large, and the rest is solved as ever.
 */

const EFFORT = 5e7;
/** How many states of a chain may be solved; the budget must not come out even. */
const statesOf = (nodes: number, circuits: number) => Math.floor((EFFORT - 1) / (nodes ** 2 + 50 * circuits));

/** From 24 V through a row of things between A and B to an input. */
function chainOf(parts: readonly string[], ends: readonly (readonly [string, string])[]): string {
  const links = ends.map(([a], place) => `  - ${place === 0 ? 'reader.S24' : ends[place - 1]?.[1]} -> ${a}`);
  const last = `  - ${ends.at(-1)?.[1]} -> reader.DN`;
  const reader = `  reader: ${BENCH_PARTS.reader}`;
  return ['machine: Chain', 'parts:', reader, ...parts, 'wiring:', ...links, last, ''].join('\n');
}

const upTo = (count: number) => Array.from({ length: count }, (_, place) => place);

it('of a thousand contacts so many are operated as the effort allows, and the others are too much', () => {
  const contacts = 1000;
  const chain = chainOf(
    upTo(contacts).map((place) => `  c${place}: ${BENCH_PARTS.closed}`),
    upTo(contacts).map((place) => [`c${place}.A`, `c${place}.B`]),
  );
  const solved = solveText(chain);
  const { rest, operations, idle } = inputOf(solved, 'reader.down');
  expect([rest.level, idle, operations.length]).toEqual(['on', [], contacts]);
  // A node behind each contact, and the contacts with the input
  const allowed = statesOf(contacts, contacts + 1);
  const known = operations.filter(({ sight }) => sight.trouble === undefined);
  expect(new Set(known.map(({ actor }) => actor.name))).toEqual(
    new Set(Array.from({ length: allowed }, (_, place) => `c${place}`)),
  );
  expect(new Set(known.map(({ sight }) => sight.level))).toEqual(new Set(['off']));
  expect(operations.filter(({ sight }) => sight.trouble === 'too-large').length).toBe(contacts - allowed);
  expect(solved.isComplete).toBe(false);
  // Nobody can tell what the faults of such an input do. What flows at rest is known all the same: 24 V on 4 kohm.
  expect(findFaults(solved).all).toEqual([]);
  const loads = findLoads(solved);
  expect(loads.find(({ element }) => element.at.part.name === 'c999')?.amps).toBeCloseTo(0.006, 9);
});

it('of seven hundred wires so many are broken as the effort allows, and what the others do is not known', () => {
  // One contact, and resistors of no resistance, which are nodes of their own but nothing to solve.
  const links = 700;
  const terminals = upTo(links).flatMap((place) => [`A${place}`, `B${place}`]);
  const circuits = upTo(links).map((place) =>
    place === 0
      ? 'c: { contact: [A0, B0], rest: closed }'
      : `r${place}: { resistor: [A${place}, B${place}], resistance: 0 ohm }`,
  );
  const facts = `{ class: switch, terminals: { all: [${terminals.join(', ')}] }, circuits: { ${circuits.join(', ')} } }`;
  const ends = upTo(links).map((place) => [`all.A${place}`, `all.B${place}`] as const);
  const solved = solveText(chainOf([`  all: ${facts}`], ends));
  expect(solved.isComplete).toBe(true);
  const { all, isComplete } = findFaults(solved);
  expect(isComplete).toBe(false);
  const rows = all.flatMap((each) => each.rows).filter(({ input: { at } }) => at.circuit.name === 'down');
  const broken = rows.filter(({ fault }) => fault.kind === 'broken');
  // A break parts one node in two; it is solved at rest and with the contacts operated.
  const allowed = Math.floor(statesOf(links + 1, links + 1) / 2);
  expect(broken.map(({ verdict }) => verdict)).toEqual(
    Array.from({ length: links + 1 }, (_, place) => (place < allowed ? 'at-once' : 'unknown')),
  );
  expect(broken.at(-1)?.rest.trouble).toBe('too-large');
  const others = rows.filter(({ fault }) => fault.kind !== 'broken');
  expect(new Set(others.map(({ rest }) => rest.trouble))).toEqual(new Set(['too-large']));
  expect(others.some(({ fault }) => fault.kind === 'welded')).toBe(false);
});
