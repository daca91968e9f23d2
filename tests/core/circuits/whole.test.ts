import { describe, expect, it } from 'vitest';
import type { Board } from '../../../server/core/circuits/solve/board.ts';
import { composeCircuit } from '../../../server/core/circuits/solve/circuit.ts';
import { type Group, plainView } from '../../../server/core/circuits/solve/groups.ts';
import { type SolvedMachine, solveWith } from '../../../server/core/circuits/solve/inputs.ts';
import { readInput } from '../../../server/core/circuits/solve/reading.ts';
import { type Random, randomFrom } from '../../support/random.ts';
import { type BenchPart, benchMachine } from './bench-parts.ts';
import { solveText } from './machines.ts';
import { randomMachine } from './random-machine.ts';

/*
 * Cutting a machine into groups that are solved each by itself loses nothing: every input sees what it sees when all of
 * the machine is one circuit.
 */

/** All of a machine as one group. */
function wholeOf(board: Board): Group {
  const free = [...new Set(board.nodeOf)].filter((node) => !board.rails.holds.has(node));
  return {
    name: 'whole',
    nodes: free,
    elements: board.elements.flatMap((element, place) => (element ? [place] : [])),
    wires: board.conductors.all.filter((conductor) => board.isResistive(conductor)),
    islands: [],
  };
}

/** Every input beside what it sees in the whole; how many there are. */
function compare({ board, held, inputs }: SolvedMachine, text: string): number {
  const whole = solveWith(composeCircuit(board, plainView(board), wholeOf(board)), held);
  // What shorts its supplies is a finding of its own and has no voltages; its neighbours have them all the same.
  if (whole.outcome.kind !== 'solved') return 0;
  let compared = 0;
  for (const { at, element, rest } of inputs) {
    const seen = readInput(whole, element);
    if (seen.trouble !== undefined || rest.trouble !== undefined) continue;
    const said = `${at.part.name}.${at.circuit.name}\n${text}`;
    expect(rest.level, said).toBe(seen.level);
    expect(rest.value, said).toBeCloseTo(seen.value ?? Number.NaN, 4);
    compared++;
  }
  return compared;
}

/** A machine of several supplies that contacts, coils and resistors join in more than one place. */
function severalSupplies(random: Random): string {
  const bridges: readonly (readonly [BenchPart, string, string])[] = [
    ['closed', 'A', 'B'],
    ['open', 'A', 'B'],
    ['resistor', 'A', 'B'],
    ['relay', 'A1', 'A2'],
    ['fuse', 'A', 'B'],
  ];
  const supplies = ['s0', 's1', 's2'];
  const rail = () => `${random.oneOf(supplies)}.${random.oneOf(['V+', 'V-'])}`;
  const parts: [string, BenchPart][] = supplies.map((name) => [name, 'psu']);
  parts.push(['reader', 'reader']);
  const links = [`${random.oneOf(supplies)}.V- -> reader.S0`, `${rail()} -> reader.DN`];
  for (let each = 0; each < 2 + random.below(4); each++) {
    const [part, a, b] = random.oneOf(bridges);
    parts.push([`b${each}`, part]);
    links.push(
      `${rail()} -> b${each}.${a}`,
      `b${each}.${b} -> ${random.below(3) === 0 ? 'reader.UP' : rail()}`,
    );
  }
  return benchMachine(parts, links);
}

describe('an input sees in its group what it sees in the whole', () => {
  it.each([
    ['of machines wired at random', randomMachine],
    ['of machines with several supplies', severalSupplies],
  ] as const)('%s', (_, make) => {
    const random = randomFrom(7);
    let compared = 0;
    for (let round = 0; round < 300; round++) {
      const text = make(random);
      compared += compare(solveText(text), text);
    }
    expect(compared).toBeGreaterThan(200);
  });
});
