import type { Link } from '../../model/wiring.ts';
import type { CircuitAt } from '../signals.ts';
import type { Board } from './board.ts';
import { breakConductor, groupOfBreak } from './breaks.ts';
import { composeCircuit } from './circuit.ts';
import { nodeAt } from './groups.ts';
import { type SolvedInput, type SolvedMachine, solveWith } from './inputs.ts';
import { type Step, traceLoop } from './loop.ts';
import type { Solution } from './states.ts';

/** How the current comes from one terminal to the next: along a wire, inside a part for good, or through what may change. */
export type Passage =
  | { readonly kind: 'wire'; readonly link: Link }
  | { readonly kind: 'inside'; readonly at: CircuitAt }
  | { readonly kind: 'element'; readonly element: number };

/** A terminal on the way of a current, by its place on the board, and the passage by which it is reached. */
export interface Stop {
  readonly terminal: number;
  readonly by: Passage | undefined;
}

/**
 * The way of the current through an input, terminal by terminal, in the state in which most flows: from the rail where it
 * comes from to the one where it goes, or from a terminal of what drives it back to that terminal.
 * @param board that of the present version; the input may have been solved on an earlier one, whose rails may have been
 *   wired otherwise
 * @returns the stops in the direction of the current; empty where no current flows in any state
 */
export function traceWay(board: Board, input: SolvedInput): Stop[] {
  const ways = [input.solution, ...input.operations.slice(0, 1).map(({ solution }) => solution)].map(
    (solution) => traceLoop(solution, input.element),
  );
  const amps = (steps: readonly Step[]) =>
    Math.max(0, ...steps.map((step) => (step.kind === 'element' ? step.amps : 0)));
  const [steps = []] = ways.sort((a, b) => amps(b) - amps(a));
  return joinSteps(board, steps);
}

/** The steps of a loop, with the ideal wires between them that the solver takes for one node. */
function joinSteps(board: Board, steps: readonly Step[]): Stop[] {
  const stops: Stop[] = [];
  const place = (terminal: string | undefined) => board.conductors.placeOf.get(terminal ?? '');
  /** Goes on to a terminal; false where that is on another node by now. */
  const goTo = (terminal: number | undefined): boolean => {
    if (terminal === undefined) return false;
    const at = stops.at(-1)?.terminal;
    if (at === undefined) stops.push({ terminal, by: undefined });
    else if (board.nodeOf[at] !== board.nodeOf[terminal]) return false;
    else stops.push(...walkNode(board, at, terminal));
    return true;
  };
  for (const step of steps) {
    if (!goTo(place(step.kind === 'rail' ? step.terminal : step.from))) return stops;
    if (step.kind === 'rail') continue;
    const terminal = place(step.to);
    if (terminal === undefined) return stops;
    stops.push({ terminal, by: passageOf(board, step) });
  }
  if (steps[0]?.kind !== 'rail') goTo(stops[0]?.terminal);
  return stops;
}

function passageOf(board: Board, step: Exclude<Step, { kind: 'rail' }>): Passage {
  return step.kind === 'wire'
    ? { kind: 'wire', link: step.link }
    : { kind: 'element', element: board.elements.indexOf(step.element) };
}

/** The shortest way from one terminal of a node to another, along conductors without resistance. */
function walkNode(board: Board, from: number, to: number): Stop[] {
  const { conductors } = board;
  const cameBy = new Map<number, { readonly from: number; readonly place: number }>();
  const queue = [from];
  for (const terminal of queue) {
    if (terminal === to) break;
    // The queue grows while it is walked through, which makes it a breadth-first search.
    for (const place of conductors.at[terminal] ?? []) {
      const conductor = conductors.all[place];
      if (!conductor || board.isResistive(conductor)) continue;
      const far = conductor.a === terminal ? conductor.b : conductor.a;
      if (far === from || cameBy.has(far)) continue;
      cameBy.set(far, { from: terminal, place });
      queue.push(far);
    }
  }
  const stops: Stop[] = [];
  for (let terminal = to; terminal !== from; ) {
    const came = cameBy.get(terminal);
    const conductor = came && conductors.all[came.place];
    if (!came || !conductor) return [];
    const by: Passage | undefined = conductor.link
      ? { kind: 'wire', link: conductor.link }
      : conductor.inside && { kind: 'inside', at: conductor.inside };
    stops.unshift({ terminal, by });
    terminal = came.from;
  }
  return stops;
}

/**
 * The voltage of a terminal above the reference of its circuit; undefined where nothing ties it to anything.
 * @param board that of the present version, which counts the terminals; nodes of a circuit that was taken over are its own
 */
export function voltsAt(board: Board, { circuit, outcome }: Solution, terminal: number): number | undefined {
  const node = nodeAt(board, circuit.view, terminal);
  const number = circuit.numberOf.get(node);
  if (number === undefined || outcome.kind !== 'solved') return circuit.view.holds.get(node)?.volts;
  return outcome.tied[outcome.classes.rootOf[number] ?? 0] === true ? outcome.volts[number] : undefined;
}

/** The circuit of an input at rest with one of its wires broken; undefined where the break makes no difference. */
export function solveBreak(solved: SolvedMachine, link: Link): Solution | undefined {
  const { board, held } = solved;
  const conductor = board.conductors.all.find((each) => each.link === link);
  const broken = conductor && breakConductor(board, conductor);
  if (!broken) return undefined;
  return solveWith(composeCircuit(board, broken.view, groupOfBreak(solved, broken)), held);
}
