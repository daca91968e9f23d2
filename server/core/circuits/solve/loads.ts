import { keptBy } from '../../reuse/kept-by.ts';
import { type Actor, actorsIn } from './actors.ts';
import { type Budget, createBudget } from './budget.ts';
import { composeCircuit } from './circuit.ts';
import type { Element } from './element.ts';
import { figure } from './figures.ts';
import { type Group, plainView } from './groups.ts';
import type { SolvedMachine } from './inputs.ts';
import { isHeld } from './relays.ts';
import { currentsOf } from './solver.ts';
import { type Solution, solveState } from './states.ts';

/** The most that flows through an output, a contact or a sensor in any state, and what was operated then. */
export interface Load {
  readonly element: Element;
  readonly amps: number;
  /** What it bears, where its sheet says so. */
  readonly rated: number | undefined;
  readonly operated: readonly Actor[];
}

/** A state in which supplies are shorted or set against each other. */
interface Clash {
  readonly group: Group;
  readonly operated: readonly Actor[];
}

/** With more, the pairs would cost more than they tell. */
const MOST_IN_PAIRS = 12;

/** What was found of one group. */
interface GroupLoads {
  readonly held: ReadonlySet<string>;
  readonly loads: readonly (readonly [place: number, load: Load])[];
  readonly clashes: readonly Clash[];
}

/** A group that an edit did not touch is the same object as before, and carries the same currents. */
const kept = new WeakMap<Group, GroupLoads>();

/**
 * Finds the largest currents, in the order of the elements: at rest, with each actor operated, and with each two outputs or
 * sensors of a group operated together, which is where two that drive one net against each other show.
 * @param isWanted leaves out what nobody asks for, which is most of it, before it is put in order
 */
export function findLoads(solved: SolvedMachine, isWanted: (load: Load) => boolean = () => true): Load[] {
  const wanted = loadsByGroup(solved).flatMap(({ loads }) => loads.filter(([, load]) => isWanted(load)));
  return wanted.sort(([a], [b]) => a - b).map(([, load]) => load);
}

/** The states of the same kinds in which supplies are shorted or set against each other. */
export function findClashes(solved: SolvedMachine): Clash[] {
  return loadsByGroup(solved).flatMap(({ clashes }) => clashes);
}

const loadsByGroup = keptBy((solved: SolvedMachine): readonly GroupLoads[] => {
  const budget = createBudget();
  return solved.groups.map((group) => {
    const known = kept.get(group);
    if (known?.held === solved.held) return known;
    const loads = loadsOf(solved, group, budget);
    if (!budget.isSpent()) kept.set(group, loads);
    return loads;
  });
});

function loadsOf({ board, held }: SolvedMachine, group: Group, budget: Budget): GroupLoads {
  const loads = new Map<number, Load>();
  const clashes: Clash[] = [];
  const actors = actorsIn(board, group);
  if (actors.length === 0) return { held, loads: [], clashes };
  const circuit = composeCircuit(board, plainView(board), group);
  for (const operated of statesOf(actors)) {
    if (!budget.allows(group)) break;
    const moved = new Set(operated.flatMap(({ elements }) => elements));
    const solution = solveState(circuit, (each) => isHeld(board, held, each) !== moved.has(each));
    if (solution.outcome.kind === 'contradiction') clashes.push({ group, operated });
    for (const [place, amps] of currentsThrough(solution)) {
      const element = board.elements[place];
      if (!element || amps <= (loads.get(place)?.amps ?? 0)) continue;
      loads.set(place, { element, amps, rated: figure(element.at.circuit, 'current'), operated });
    }
  }
  return { held, loads: [...loads], clashes };
}

function statesOf(actors: readonly Actor[]): (readonly Actor[])[] {
  const drivers = actors.filter(({ mover }) => mover === 'output' || mover === 'sensor');
  const pairs =
    drivers.length > MOST_IN_PAIRS
      ? []
      : drivers.flatMap((a, index) => drivers.slice(index + 1).map((b) => [a, b]));
  return [[], ...actors.map((actor) => [actor]), ...pairs];
}

/** The current at the working end of each element that changes: the output of a sensor, the first end of all others. */
function currentsThrough({ circuit, composed, outcome }: Solution): Map<number, number> {
  const through = new Map<number, number>();
  if (outcome.kind !== 'solved') return through;
  const amps = currentsOf(composed.network, outcome);
  for (const [index, { element, ends }] of circuit.parts.entries()) {
    const { mover, at } = circuit.board.elements[element] ?? {};
    if (mover === undefined) continue;
    const end = ends[at?.circuit.kind === 'sensor' ? 2 : 0];
    const until = composed.starts[index + 1] ?? composed.network.branches.length;
    let sum = 0;
    for (let branch = composed.starts[index] ?? until; branch < until; branch++) {
      const { a, b } = composed.network.branches[branch] ?? {};
      const current = amps[branch] ?? 0;
      if (Number.isNaN(current)) continue; // beside a way without resistance, how they share is not determined
      if (a === end) sum += current;
      if (b === end) sum -= current;
    }
    through.set(element, Math.abs(sum));
  }
  return through;
}
