import { describe, expect, it } from 'vitest';
import {
  type SolvedInput,
  type SolvedMachine,
  solveMachine,
} from '../../../server/core/circuits/solve/inputs.ts';
import { currentsOf } from '../../../server/core/circuits/solve/solver.ts';
import type { Solution } from '../../../server/core/circuits/solve/states.ts';
import { type Stop, traceWay, voltsAt } from '../../../server/core/circuits/solve/way.ts';
import { randomFrom } from '../../support/random.ts';
import { exampleMachines, solveText } from './machines.ts';
import { randomMachine } from './random-machine.ts';

/*
 * What holds of the way of any current: wherever one flows through an input there is a way; each stop is joined to the one
 * before it; the way is closed, by itself or over the supplies; and the potential falls along it, but in what drives it.
 */

const MACHINES = 400;

/** Below this a current is none. In A. */
const NOTHING = 1e-7;

/** What the solver's leaks may make of a voltage that does not change. In V. */
const NO_VOLTS = 1e-6;

const statesOf = ({ solution, operations }: SolvedInput): readonly Solution[] => [
  solution,
  ...operations.slice(0, 1).map((operation) => operation.solution),
];

/** The most that flows through an input, in A. */
function ampsOf(input: SolvedInput, { circuit, composed, outcome }: Solution): number {
  if (outcome.kind !== 'solved') return 0;
  const start = composed.starts[circuit.partOf.get(input.element) ?? -1] ?? 0;
  const branches = circuit.board.elements[input.element]?.rest.length ?? 0;
  const amps = currentsOf(composed.network, outcome).slice(start, start + branches);
  return Math.max(0, ...amps.map(Math.abs));
}

/** Where a way does not hang together, in words. */
function gapsOf({ board }: SolvedMachine, stops: readonly Stop[]): string[] {
  return stops.flatMap(({ terminal, by }, index) => {
    const before = stops[index - 1]?.terminal;
    if (before === undefined) return by === undefined ? [] : ['comes from nowhere'];
    const ends =
      by?.kind === 'element'
        ? board.endsOf[by.element]
        : board.conductors.all.find(({ a, b, link, inside }) => {
            const isIt = by?.kind === 'wire' ? link === by.link : inside === by?.at;
            return isIt && [a, b].includes(terminal) && [a, b].includes(before);
          }) && [terminal, before];
    const isJoined = before !== terminal && ends?.includes(before) === true && ends.includes(terminal);
    return isJoined ? [] : [`${board.conductors.terminals[before]} is not joined to the next`];
  });
}

/** What has a voltage of its own behind its terminals. */
const DRIVING: ReadonlySet<string | undefined> = new Set(['pulled-up-in', 'line-out', 'analog-out']);

function canDrive({ board }: SolvedMachine, stop: Stop | undefined): boolean {
  return stop?.by?.kind === 'element' && DRIVING.has(board.elements[stop.by.element]?.at.circuit.kind);
}

/** Whether the potential rises in a state along a passage that cannot drive a current. */
function isUphill(solved: SolvedMachine, stops: readonly Stop[], solution: Solution): boolean {
  const volts = stops.map(({ terminal }) => voltsAt(solved.board, solution, terminal) ?? 0);
  return stops.some((stop, index) => {
    const rise = (volts[index] ?? 0) - (volts[index - 1] ?? volts[index] ?? 0);
    return rise > NO_VOLTS && !canDrive(solved, stop);
  });
}

/** What is wrong with the ways of a machine, and how many there are of either kind. */
function look(solved: SolvedMachine) {
  const wrong: string[] = [];
  const count = { round: 0, fromRailToRail: 0 };
  for (const input of solved.inputs) {
    const { board } = solved;
    const stops = traceWay(board, input);
    const complain = (what: string) => wrong.push(`${input.at.part.name}.${input.at.circuit.name} ${what}`);
    const flows = statesOf(input).some((state) => ampsOf(input, state) > NOTHING);
    if (flows !== stops.length > 0) complain(flows ? 'has no way' : 'has a way for no current');
    const [first, last] = [stops[0]?.terminal, stops.at(-1)?.terminal];
    if (first === undefined || last === undefined) continue;
    for (const gap of gapsOf(solved, stops)) complain(gap);
    const passes = stops.filter(({ by }) => by?.kind === 'element' && by.element === input.element);
    if (passes.length !== 1) complain(`is passed ${passes.length} times`);
    const isHeld = (terminal: number) => board.rails.holds.has(board.nodeOf[terminal] ?? -1);
    const isRound = first === last;
    if (!isRound && !(isHeld(first) && isHeld(last))) complain('is not closed');
    count[isRound ? 'round' : 'fromRailToRail']++;
    if (isRound && !canDrive(solved, stops[1])) complain('does not begin at what drives it');
    const flowing = statesOf(input).filter((state) => ampsOf(input, state) > NOTHING);
    if (flowing.every((state) => isUphill(solved, stops, state))) complain('goes uphill');
  }
  return { wrong, count };
}

describe.each(exampleMachines())('in %s', (_, machine) => {
  it('every current through an input has a way that is closed, along which the potential falls', () => {
    const { wrong, count } = look(solveMachine(machine));
    expect(wrong).toEqual([]);
    expect(count.fromRailToRail).toBeGreaterThan(0);
    expect(count.round).toBeGreaterThan(0);
  });
});

it('so has every current in four hundred small machines', () => {
  const total = { round: 0, fromRailToRail: 0 };
  for (let seed = 1; seed <= MACHINES; seed++) {
    const text = randomMachine(randomFrom(seed));
    const { wrong, count } = look(solveText(text));
    expect(wrong, text).toEqual([]);
    total.round += count.round;
    total.fromRailToRail += count.fromRailToRail;
  }
  expect(total.round).toBeGreaterThan(10);
  expect(total.fromRailToRail).toBeGreaterThan(10);
});
