import type { Link } from '../../model/wiring.ts';
import type { Branch } from './branch.ts';
import type { Element, State } from './element.ts';
import type { Supply } from './rails.ts';
import { currentsOf } from './solver.ts';
import type { Solution } from './states.ts';

/** One step of the way that a current takes. */
export type Step =
  /** A rail, with the supply that holds it where one ends on it, and its voltage above the zero of its island. */
  | {
      readonly kind: 'rail';
      readonly supply: Supply | undefined;
      readonly terminal: string;
      readonly volts: number;
    }
  | ({
      readonly kind: 'element';
      readonly element: Element;
      readonly state: State | 'dead';
      readonly amps: number;
    } & Course)
  | ({ readonly kind: 'wire'; readonly link: Link; readonly ohms: number } & Course);

/** The terminals by which a current comes in and leaves; undefined for a node inside a part. */
interface Course {
  readonly from: string | undefined;
  readonly to: string | undefined;
}

/** Currents below this are leaks, and no way of anything. */
const LEAST_AMPS = 1e-7;

/** A branch that carries a current, turned so that it flows from `from` to `to`, and what it belongs to. */
interface Way {
  readonly from: number;
  readonly to: number;
  readonly amps: number;
  /** The volts by which what is in the branch drives the current; below zero where it works against it. */
  readonly drive: number;
  readonly step: Step;
}

/**
 * Follows the current through an input all the way round: from the rail that it comes from to the one that it goes to, or,
 * where it runs through no rail, from what drives it back to there. A pulled-up input drives the current through a contact
 * to its own return by itself; nothing of that flows through a supply.
 * @returns the steps in the direction of the current; empty where none flows
 */
export function traceLoop(solution: Solution, element: number): Step[] {
  const { circuit, outcome, composed } = solution;
  if (outcome.kind !== 'solved') return [];
  const ways = listWays(solution, currentsOf(composed.network, outcome));
  const own = circuit.board.elements[element];
  const isOwn = ({ step }: Way) => step.kind === 'element' && step.element === own;
  const through = largest(ways.filter(isOwn));
  if (!through) return [];
  const others = ways.filter((way) => !isOwn(way));
  const back = findWay(others, through.to, through.from);
  return back ? stepsOf(cutLoop([through, ...back])) : [];
}

/** Cuts a loop, which begins with an input, at the rails on either side of it, else before what drives most. */
function cutLoop(loop: readonly Way[]): readonly Way[] {
  const isRail = ({ step }: Way) => step.kind === 'rail';
  const rail = loop.findIndex(isRail);
  if (rail >= 0) return [...loop.slice(loop.findLastIndex(isRail)), ...loop.slice(0, rail + 1)];
  const first = loop.findIndex(({ drive }) => loop.every((other) => other.drive <= drive));
  return [...loop.slice(first), ...loop.slice(0, first)];
}

/** What ways belong to, once where several that follow on one another are inside the same element. */
function stepsOf(ways: readonly Way[]): Step[] {
  const steps: Step[] = [];
  for (const { step } of ways) {
    const last = steps.at(-1);
    if (last?.kind === 'element' && step.kind === 'element' && last.element === step.element)
      steps[steps.length - 1] = { ...last, to: step.to };
    else steps.push(step);
  }
  return steps;
}

/** All that carries a current, in the direction in which it flows. */
function listWays(solution: Solution, amps: readonly number[]): Way[] {
  return solution.composed.network.branches.flatMap((branch, index): Way[] => {
    const current = amps[index] ?? 0;
    if (!(Math.abs(current) > LEAST_AMPS)) return [];
    const isForward = current > 0;
    const [from, to] = isForward ? [branch.a, branch.b] : [branch.b, branch.a];
    const volts = branch.kind === 'source' || branch.kind === 'join' ? branch.volts : 0;
    const step = stepThrough(solution, index, Math.abs(current), isForward);
    return [{ from, to, amps: Math.abs(current), drive: isForward ? -volts : volts, step }];
  });
}

/** What a branch belongs to, by its place in the network: the holds of the rails come first, then wires, then elements. */
function stepThrough(solution: Solution, index: number, amps: number, isForward: boolean): Step {
  const { circuit, composed, states } = solution;
  const course = (a: string | undefined, b: string | undefined): Course =>
    isForward ? { from: a, to: b } : { from: b, to: a };
  const part = composed.starts.findLastIndex((start) => start <= index);
  const element = part < 0 ? undefined : circuit.board.elements[circuit.parts[part]?.element ?? -1];
  if (element) {
    const state = states[part] ?? 'rest';
    const branches = state === 'dead' ? element.fed?.dead : element[state];
    const own = branches?.[index - (composed.starts[part] ?? 0)];
    const ends = course(element.ends[own?.a ?? -1], element.ends[own?.b ?? -1]);
    return { kind: 'element', element, state, amps, ...ends };
  }
  const holds = circuit.fixed.length - circuit.group.wires.length;
  const conductor = circuit.group.wires[index - holds];
  if (!conductor?.link) return railStep(solution, composed.network.branches[index]);
  const { link, ohms = 0 } = conductor;
  return { kind: 'wire', link, ohms, ...course(link.from.id, link.to.id) };
}

/** A rail is called by a terminal of a supply, if possible one where a circuit of the group ends, or of its part. */
function railStep({ circuit }: Solution, hold: Branch | undefined): Step {
  const { supplyEndsOn, conductors, terminalsOn, elements, endsOf } = circuit.board;
  const [node = 0] = [...circuit.numberOf].find(([, number]) => number === hold?.a) ?? [];
  const own = new Set(circuit.group.elements.flatMap((element) => endsOf[element] ?? []));
  // By name: what was taken over from an earlier version belongs to an earlier part of that name.
  const parts = new Set(circuit.group.elements.map((element) => elements[element]?.at.part.name));
  const ends = supplyEndsOn.get(node) ?? [];
  const end =
    ends.find(({ terminal }) => own.has(terminal)) ??
    ends.find(({ supply }) => parts.has(supply.at.part.name)) ??
    ends[0];
  const terminal = conductors.terminals[end?.terminal ?? terminalsOn(node)[0] ?? 0] ?? '';
  return { kind: 'rail', supply: end?.supply, terminal, volts: hold?.kind === 'join' ? hold.volts : 0 };
}

/**
 * The way between two nodes along which the most can flow all through. From what was reached so far it always goes on by
 * the largest current, so that none smaller is taken than the narrowest place of the best way asks for.
 * @returns undefined where no current flows from the one to the other
 */
function findWay(ways: readonly Way[], start: number, goal: number): readonly Way[] | undefined {
  const cameBy = new Map<number, Way>();
  const isReached = (node: number) => node === start || cameBy.has(node);
  while (!isReached(goal)) {
    const next = largest(ways.filter(({ from, to }) => isReached(from) && !isReached(to)));
    if (!next) return undefined;
    cameBy.set(next.to, next);
  }
  const found: Way[] = [];
  for (let way = cameBy.get(goal); way; way = cameBy.get(way.from)) found.unshift(way);
  return found;
}

function largest(ways: readonly Way[]): Way | undefined {
  let best: Way | undefined;
  for (const way of ways) if (!best || way.amps > best.amps) best = way;
  return best;
}
