import { describe, expect, it } from 'vitest';
import type { Actor } from '../../../server/core/circuits/solve/actors.ts';
import { breakConductor } from '../../../server/core/circuits/solve/breaks.ts';
import { createBudget } from '../../../server/core/circuits/solve/budget.ts';
import { composeCircuit, type Short } from '../../../server/core/circuits/solve/circuit.ts';
import { findFaults } from '../../../server/core/circuits/solve/faults.ts';
import { createBreaks } from '../../../server/core/circuits/solve/felt-breaks.ts';
import { isBridge, nodeAt, plainView, type View } from '../../../server/core/circuits/solve/groups.ts';
import { createLosses } from '../../../server/core/circuits/solve/input-faults.ts';
import {
  type SolvedInput,
  type SolvedMachine,
  solveWith,
} from '../../../server/core/circuits/solve/inputs.ts';
import { readInput, type Sight } from '../../../server/core/circuits/solve/reading.ts';
import { circuitsOf } from '../../../server/core/circuits/solve/solved.ts';
import type { Solution } from '../../../server/core/circuits/solve/states.ts';
import { createFettle } from '../../../server/core/fettle.ts';
import { type Random, randomFrom } from '../../support/random.ts';
import { worldOf } from '../../support/world.ts';
import { type BenchPart, benchMachine } from './bench-parts.ts';
import { SHEETS, wireOtherwise, withSheets } from './call-otherwise.ts';
import { solveText } from './machines.ts';
import { solvedAnew, solvedOf } from './plain.ts';
import { randomMachine } from './random-machine.ts';

/*
 * Cutting a machine into groups that are solved each by itself loses nothing: every input sees what it sees when all of
 * the machine is one circuit.
 */

const FILE = 'm.machine.yaml';

/** All of a machine as one group, seen with its rails and with a wire broken or not. */
function solveWhole({ board, held }: SolvedMachine, view: View, actor?: Actor, short?: Short): Solution {
  const nodes = [...new Set([...board.nodeOf.keys()].map((terminal) => nodeAt(board, view, terminal)))];
  const whole = {
    name: 'whole',
    nodes: nodes.filter((node) => !view.holds.has(node)),
    elements: board.elements.flatMap((element, place) => (element ? [place] : [])),
    wires: board.conductors.all.filter(
      (conductor) => board.isResistive(conductor) && conductor.id !== view.broken?.id,
    ),
    islands: [],
  };
  return solveWith(composeCircuit(board, view, whole, short), held, actor);
}

/** Holds what an input sees to what it sees in the whole; whether there was anything to compare. */
function isCompared(whole: Solution, { at, element }: SolvedInput, seen: Sight, text: string): boolean {
  const inWhole = readInput(whole, element);
  // What shorts its supplies is a finding of its own and has no voltages; its neighbours have them all the same.
  if (inWhole.trouble !== undefined || seen.trouble !== undefined) return false;
  const said = `${at.part.name}.${at.circuit.name}\n${text}`;
  expect(seen.level, said).toBe(inWhole.level);
  expect(seen.value, said).toBeCloseTo(inWhole.value ?? Number.NaN, 4);
  return true;
}

/** How many inputs saw at rest what they see in the whole. */
function compareRest(text: string): number {
  const solved = solveText(text);
  const whole = solveWhole(solved, plainView(solved.board));
  return solved.inputs.filter((input) => isCompared(whole, input, input.rest, text)).length;
}

/** The same with something operated, for all that changes an input. */
function compareOperated(text: string): number {
  const solved = solveText(text);
  let compared = 0;
  for (const input of solved.inputs) {
    for (const { actor, sight } of input.operations) {
      // A relay that is moved by hand lets go in a circuit that its coil, which has no current, is in as well.
      if (actor.mover === 'relay') continue;
      const whole = solveWhole(solved, plainView(solved.board), actor);
      if (isCompared(whole, input, sight, `${actor.name} operated\n${text}`)) compared++;
    }
  }
  return compared;
}

/** The same with what can go wrong beside a broken wire: a supply that is lost, and a signal that touches a rail. */
function compareFaults(text: string): number {
  const solved = solveText(text);
  const { board } = solved;
  const losses = createLosses(board);
  const nodeAt = (terminal: string) => board.nodeOf[board.conductors.placeOf.get(terminal) ?? -1] ?? -1;
  let compared = 0;
  for (const { input, fault, rest } of findFaults(solved).all.flatMap(({ rows }) => rows)) {
    const plain = plainView(board);
    const said = `${JSON.stringify(fault.kind)}\n${text}`;
    if (fault.kind === 'supply-lost') {
      const whole = solveWhole(solved, { ...plain, holds: losses(fault.supply) });
      if (isCompared(whole, input, rest, said)) compared++;
    }
    if (fault.kind === 'shorted') {
      const whole = solveWhole(solved, plain, undefined, {
        node: nodeAt(fault.terminal),
        rail: nodeAt(fault.rail),
      });
      if (isCompared(whole, input, rest, `${said} ${fault.terminal} ${fault.rail}`)) compared++;
    }
  }
  return compared;
}

/** The same while one link is broken, for all links and all inputs that are looked at then. */
function compareBreaks(text: string): number {
  const solved = solveText(text);
  const { board, inputs } = solved;
  const breakOf = createBreaks(solved, new Map(), createBudget());
  let compared = 0;
  for (const conductor of board.conductors.all) {
    const broken = breakConductor(board, conductor);
    if (!broken) continue;
    const whole = solveWhole(solved, broken.view);
    const { felt } = breakOf(conductor);
    for (const input of inputs) {
      const seen = felt.get(input.element);
      if (seen && isCompared(whole, input, seen.rest, `${conductor.link?.at.text} broken\n${text}`))
        compared++;
    }
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

const MACHINES = [
  ['wired at random', randomMachine, 200, 5],
  ['with several supplies', severalSupplies, 200, 100],
] as const;

function count(make: (random: Random) => string, compare: (text: string) => number): number {
  const random = randomFrom(7);
  let compared = 0;
  for (let round = 0; round < 300; round++) compared += compare(make(random));
  return compared;
}

describe.each(MACHINES)('in machines %s', (_, make, least, leastBroken) => {
  it('an input sees in its group what it sees in the whole', () => {
    expect(count(make, compareRest)).toBeGreaterThan(least);
  });
  it('so it does while something is operated', () => {
    expect(count(make, compareOperated)).toBeGreaterThan(leastBroken);
  });
  it('so it does while a supply is lost or a signal touches a rail', () => {
    expect(count(make, compareFaults)).toBeGreaterThan(leastBroken);
  });
  it('so it does while a wire is broken', () => {
    expect(count(make, compareBreaks)).toBeGreaterThan(leastBroken);
  });
});

it('groups come to reach between the same islands, and cease to, as if the text were new', () => {
  const random = randomFrom(11);
  let bridges = 0;
  for (let machine = 0; machine < 12; machine++) {
    const fettle = createFettle(worldOf(SHEETS));
    let text = withSheets(severalSupplies(random));
    for (let edit = 0; edit < 12; edit++) {
      text = wireOtherwise(text, random);
      expect(solvedOf(fettle, FILE, text), text).toEqual(
        solvedAnew(createFettle(worldOf(SHEETS)), FILE, text),
      );
      const analysis = fettle.analyse(FILE, text);
      if (analysis.kind === 'machine')
        bridges += circuitsOf(analysis.machine).solved.groups.filter(isBridge).length;
    }
  }
  expect(bridges).toBeGreaterThan(20);
});
