import { meet } from '../../meet.ts';
import type { Board } from './board.ts';
import { findWaysHome, linksFelt } from './breaks.ts';
import type { Changes } from './changes.ts';
import type { Conductor } from './conductors.ts';
import type { InputFaults } from './faults.ts';
import type { Group } from './groups.ts';
import type { SolvedInput } from './inputs.ts';
import { type NearRail, type NearRails, partIn, railsNear } from './shorts.ts';

/** What can go wrong around an input, and what decides that. */
export interface Surroundings extends NearRails {
  /** The links whose breaking it may feel. */
  readonly links: readonly Conductor[];
  /** The nodes that its circuits end on, among them those of the rails from which they are fed. */
  readonly nodes: readonly number[];
}

/** How a board differs from an earlier one, of which the surroundings are known. */
interface Difference {
  readonly board: Board;
  readonly changes: Changes;
}

/**
 * Finds the surroundings of inputs.
 * @param before the earlier board: what is around an input stays while nothing changed there
 */
export function createSurroundings(
  board: Board,
  before: Difference | undefined,
): { readonly of: (input: SolvedInput, known: InputFaults | undefined) => Surroundings } {
  let waysHome: Int32Array | undefined;
  let touched: Touched | undefined;
  return {
    of: (input, known) => {
      if (known && before?.changes.isSameLayout) return renewLinks(known, before.changes);
      if (known && before && known.input.group === input.group) {
        touched ??= listTouched(before, board);
        if (!isTouched(known, touched)) return known;
      }
      waysHome ??= findWaysHome(board);
      return {
        links: linksFelt(board, waysHome, input.group),
        nodes: nodesOf(board, input.group),
        ...railsNear(board, input),
      };
    },
  };
}

/** With nothing joined otherwise, what is around an input is where it was; only the links may have other figures. */
function renewLinks(known: Surroundings, { replaced }: Changes): Surroundings {
  if (!known.links.some((link) => replaced.has(link))) return known;
  return { ...known, links: known.links.map((link) => replaced.get(link) ?? link) };
}

function nodesOf(board: Board, { nodes, elements }: Group): number[] {
  const all = new Set(nodes);
  for (const element of elements)
    for (const end of board.endsOf[element] ?? []) all.add(board.nodeOf[end] ?? 0);
  return [...all];
}

/** Where something changed: nodes, the parts that have terminals there, and the cables that end there. */
interface Touched {
  readonly nodes: ReadonlySet<number>;
  readonly parts: ReadonlySet<string>;
  readonly cables: ReadonlySet<string>;
}

function listTouched({ board: before, changes }: Difference, board: Board): Touched {
  const [parts, cables] = [new Set<string>(), new Set<string>()];
  for (const { conductors } of [before, board]) {
    for (const terminal of changes.terminals) {
      const name = conductors.terminals[terminal];
      if (name !== undefined) parts.add(partIn(name));
      for (const place of conductors.at[terminal] ?? []) {
        const cable = conductors.all[place]?.link?.cable;
        if (cable !== undefined) cables.add(cable);
      }
    }
  }
  return { nodes: changes.nodes, parts, cables };
}

function isTouched({ nodes, parts, cables }: Surroundings, touched: Touched): boolean {
  return (
    nodes.some((node) => touched.nodes.has(node)) ||
    meet(touched.parts, parts) ||
    meet(touched.cables, cables)
  );
}

/** Whether two surroundings are electrically the same. */
export function isSameAround(a: Surroundings, b: Surroundings): boolean {
  if (a === b) return true;
  return (
    a.links.length === b.links.length &&
    a.near.length === b.near.length &&
    a.links.every(({ id }, index) => id === b.links[index]?.id) &&
    a.near.every((rail, index) => isSameRail(rail, b.near[index]))
  );
}

function isSameRail(a: NearRail, b: NearRail | undefined): boolean {
  return (
    a.node === b?.node &&
    a.rail === b.rail &&
    a.volts === b.volts &&
    a.name === b.name &&
    a.terminal === b.terminal &&
    a.isOnMains === b.isOnMains
  );
}
