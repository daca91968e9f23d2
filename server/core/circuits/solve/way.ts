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
 * The way of the current through an input, terminal by terminal, from the rail where it comes from to the one where it
 * goes: in the state in which most flows.
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
  return steps.length < 3 ? [] : joinSteps(board, steps);
}

/** The steps between two rails, with the ideal wires between them that the solver takes for one node. */
function joinSteps(board: Board, steps: readonly Step[]): Stop[] {
  const ends = steps.map((step) => endsOfStep(board, step));
  const [start] = ends[0] ?? [];
  if (start === undefined) return [];
  const stops: Stop[] = [{ terminal: start, by: undefined }];
  const isOn = (terminal: number, others: readonly number[]) =>
    others.some((other) => board.nodeOf[other] === board.nodeOf[terminal]);
  for (const [index, step] of steps.entries()) {
    if (index === 0) continue;
    const own = ends[index] ?? [];
    const at = stops.at(-1)?.terminal ?? start;
    const entry = own.find((end) => isOn(end, [at]));
    if (entry === undefined) return stops;
    stops.push(...walkNode(board, at, entry));
    if (step.kind === 'rail') continue;
    const next = ends[index + 1] ?? [];
    const exit = own.find((end) => end !== entry && isOn(end, next)) ?? own.find((end) => end !== entry);
    if (exit === undefined) return stops;
    const by: Passage =
      step.kind === 'wire'
        ? { kind: 'wire', link: step.link }
        : { kind: 'element', element: board.elements.indexOf(step.element) };
    stops.push({ terminal: exit, by });
  }
  return stops;
}

function endsOfStep({ conductors, elements, endsOf }: Board, step: Step): readonly number[] {
  const place = (terminal: string) => conductors.placeOf.get(terminal) ?? -1;
  switch (step.kind) {
    case 'rail':
      return [place(step.terminal)].filter((each) => each >= 0);
    case 'wire':
      return [place(step.link.from.id), place(step.link.to.id)];
    case 'element':
      return endsOf[elements.indexOf(step.element)] ?? [];
  }
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
export function solveBreak({ board, held }: SolvedMachine, link: Link): Solution | undefined {
  const conductor = board.conductors.all.find((each) => each.link === link);
  const broken = conductor && breakConductor(board, conductor);
  if (!broken) return undefined;
  return solveWith(composeCircuit(board, broken.view, groupOfBreak(board, broken)), held);
}
