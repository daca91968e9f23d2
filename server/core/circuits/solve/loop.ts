import type { Link } from '../../model/wiring.ts';
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
  | {
      readonly kind: 'element';
      readonly element: Element;
      readonly state: State | 'dead';
      readonly amps: number;
    }
  | { readonly kind: 'wire'; readonly link: Link; readonly ohms: number };

/** Currents below this are leaks, and no way of anything. */
const LEAST_AMPS = 1e-7;

/** A branch with its current and what it belongs to. */
interface Way {
  readonly a: number;
  readonly b: number;
  readonly amps: number;
  readonly step: Step;
}

/**
 * Follows the largest current through an input, back to the rail that it comes from and on to the rail that it goes to.
 * @returns the steps in the direction of the current; empty where none flows
 */
export function traceLoop(solution: Solution, element: number): Step[] {
  const { circuit, outcome, composed } = solution;
  if (outcome.kind !== 'solved') return [];
  const amps = currentsOf(composed.network, outcome);
  const ways = listWays(solution, amps);
  const own = ways.filter(
    ({ step }) => step.kind === 'element' && step.element === circuit.board.elements[element],
  );
  const start = largest(own);
  if (!start) return [];
  const [from, to] = start.amps > 0 ? [start.a, start.b] : [start.b, start.a];
  const used = new Set<Way>(own);
  return [...follow(ways, from, -1, used).reverse(), start.step, ...follow(ways, to, 1, used)];
}

function listWays(solution: Solution, amps: readonly number[]): Way[] {
  const { circuit, composed, states } = solution;
  const { board } = circuit;
  const nodes = [...circuit.numberOf];
  const { branches } = composed.network;
  const holds = nodes.filter(([node]) => circuit.view.holds.has(node));
  return branches.map((branch, index): Way => {
    const { a, b } = branch;
    const way = { a, b, amps: amps[index] ?? 0 };
    const part = composed.starts.findLastIndex((start) => start <= index);
    const element = part < 0 ? undefined : board.elements[circuit.parts[part]?.element ?? -1];
    if (element)
      return {
        ...way,
        step: { kind: 'element', element, state: states[part] ?? 'rest', amps: Math.abs(way.amps) },
      };
    const hold = holds[index];
    if (hold) return { ...way, step: railStep(solution, hold[0], branch.kind === 'join' ? branch.volts : 0) };
    const conductor = circuit.group.wires[index - holds.length];
    if (conductor?.link)
      return { ...way, step: { kind: 'wire', link: conductor.link, ohms: conductor.ohms ?? 0 } };
    return { ...way, step: { kind: 'rail', supply: undefined, terminal: '', volts: 0 } };
  });
}

/** A rail is called by a terminal of a supply, if possible one where a circuit of the group ends, or of its part. */
function railStep({ circuit }: Solution, node: number, volts: number): Step {
  const { supplyEndsOn, conductors, terminalsOn, elements, endsOf } = circuit.board;
  const own = new Set(circuit.group.elements.flatMap((element) => endsOf[element] ?? []));
  // By name: what was taken over from an earlier version belongs to an earlier part of that name.
  const parts = new Set(circuit.group.elements.map((element) => elements[element]?.at.part.name));
  const ends = supplyEndsOn.get(node) ?? [];
  const end =
    ends.find(({ terminal }) => own.has(terminal)) ??
    ends.find(({ supply }) => parts.has(supply.at.part.name)) ??
    ends[0];
  const terminal = end?.terminal ?? terminalsOn(node)[0] ?? 0;
  return { kind: 'rail', supply: end?.supply, terminal: conductors.terminals[terminal] ?? '', volts };
}

/** Goes on from a node along the largest current, downstream or upstream, until a rail. */
function follow(ways: readonly Way[], start: number, direction: 1 | -1, used: Set<Way>): Step[] {
  const steps: Step[] = [];
  for (let node = start; ; ) {
    const next = largest(
      ways.filter((way) => {
        if (used.has(way)) return false;
        // Downstream the current leaves the node through the branch, upstream it comes in by it.
        const leaves = way.a === node ? way.amps : way.b === node ? -way.amps : 0;
        return leaves * direction > LEAST_AMPS;
      }),
    );
    if (!next) return steps;
    used.add(next);
    const last = steps.at(-1);
    const isSame =
      last?.kind === 'element' && next.step.kind === 'element' && last.element === next.step.element;
    if (!isSame) steps.push(next.step);
    if (next.step.kind === 'rail') return steps;
    node = next.a === node ? next.b : next.a;
  }
}

function largest(ways: readonly Way[]): Way | undefined {
  let best: Way | undefined;
  for (const way of ways) {
    if (Math.abs(way.amps) > Math.max(LEAST_AMPS, Math.abs(best?.amps ?? 0))) best = way;
  }
  return best;
}
