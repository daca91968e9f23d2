import { keptBy } from '../../reuse/kept-by.ts';
import type { Board } from './board.ts';
import type { Conductor } from './conductors.ts';
import { type Grouping, groupOf } from './grouping.ts';
import { conductorsOf, type Group, isBridge, plainView, spread, type View } from './groups.ts';

/** The machine with one conductor broken, and the nodes whose circuits feel it. */
export interface Break {
  readonly view: View;
  readonly seeds: readonly number[];
}

/**
 * Breaks a conductor.
 * @returns undefined where it makes no difference because another way leads round it, and where it parts supplies from
 * one another, which is the loss of a supply and not of a signal
 */
export function breakConductor(board: Board, conductor: Conductor): Break | undefined {
  const plain = plainView(board);
  const nodeOf = (terminal: number) => board.nodeOf[terminal] ?? 0;
  if (board.isResistive(conductor)) {
    return { view: { ...plain, broken: conductor }, seeds: [nodeOf(conductor.a), nodeOf(conductor.b)] };
  }
  const node = nodeOf(conductor.a);
  const part = partAt(board, conductor);
  if (!part) return undefined;
  const isHeld = plain.holds.has(node);
  let cutOff = part;
  if (isHeld) {
    const ends = board.supplies
      .flatMap(({ plus, minus }) => [plus, minus])
      .filter((end) => nodeOf(end) === node);
    const inPart = ends.filter((end) => part.has(end)).length;
    if (inPart > 0 && inPart < ends.length) return undefined;
    if (inPart > 0) cutOff = new Set(board.terminalsOn(node).filter((each) => !part.has(each)));
  }
  const beyond = board.conductors.terminals.length;
  return { view: { ...plain, broken: conductor, cutOff }, seeds: isHeld ? [beyond] : [beyond, node] };
}

/**
 * The smaller of the two parts into which a node falls without a conductor; undefined when it does not fall apart. Both
 * parts grow in turns, so that the cost is that of the smaller one.
 */
function partAt(board: Board, conductor: Conductor): ReadonlySet<number> | undefined {
  if (conductor.a === conductor.b) return undefined;
  const sides = [conductor.a, conductor.b].map((start) => ({ found: new Set([start]), open: [start] }));
  for (;;) {
    for (const [index, side] of sides.entries()) {
      const other = sides[1 - index]?.found;
      const terminal = side.open.pop();
      if (terminal === undefined) return side.found;
      for (const next of board.conductors.at[terminal] ?? []) {
        const way = board.conductors.all[next];
        if (!way || way.id === conductor.id || board.isResistive(way)) continue;
        const far = way.a === terminal ? way.b : way.a;
        if (other?.has(far)) return undefined;
        if (side.found.has(far)) continue;
        side.found.add(far);
        side.open.push(far);
      }
    }
  }
}

/** For a terminal of a rail the conductor that leads one step nearer to a supply; less than 0 at the supplies and elsewhere. */
type WaysHome = (terminal: number) => number;

/** Most rails are asked about in no version but the first, so each is searched when it is asked for. */
const waysHomeOf = keptBy((board: Board): WaysHome => {
  const ways = new Int32Array(board.conductors.terminals.length).fill(-1);
  const searched = new Set<number>();
  return (terminal) => {
    const node = board.nodeOf[terminal] ?? -1;
    if (!searched.has(node)) {
      searched.add(node);
      searchHome(board, node, ways);
    }
    return ways[terminal] ?? -1;
  };
});

function searchHome({ conductors, supplyEndsOn }: Board, node: number, ways: Int32Array): void {
  const queue = (supplyEndsOn.get(node) ?? []).map(({ terminal }) => terminal);
  const seen = new Set(queue);
  for (const terminal of queue) {
    // The queue grows while it is walked through, which makes it a breadth-first search.
    for (const place of conductors.at[terminal] ?? []) {
      const conductor = conductors.all[place];
      // Whatever hangs together with a supply counts as having no resistance.
      if (!conductor) continue;
      const far = conductor.a === terminal ? conductor.b : conductor.a;
      if (seen.has(far)) continue;
      seen.add(far);
      ways[far] = place;
      queue.push(far);
    }
  }
}

/** The links whose breaking a group may feel: its own first, then those that lead from its circuits to their supplies. */
export function linksFelt(board: Board, group: Group): Conductor[] {
  const { conductors } = board;
  const wayHome = waysHomeOf(board);
  const places = new Set(conductorsOf(board, group));
  for (const element of group.elements) {
    for (const end of board.endsOf[element] ?? []) {
      let at = end;
      for (let place = wayHome(at); place >= 0 && !places.has(place); place = wayHome(at)) {
        places.add(place);
        const conductor = conductors.all[place];
        if (!conductor) break;
        at = conductor.a === at ? conductor.b : conductor.a;
      }
    }
  }
  return [...places].flatMap((place) => {
    const conductor = conductors.all[place];
    return conductor?.link ? [conductor] : [];
  });
}

/** The group that feels a break: what hangs on it, with all that is solved together with that while nothing is broken. */
export function groupOfBreak(grouping: Grouping, { view, seeds }: Break): Group {
  const group = spread(grouping.board, view, { nodes: seeds });
  const bridges = new Set(
    group.elements.flatMap((element) => groupOf(grouping, element) ?? []).filter(isBridge),
  );
  if (bridges.size === 0) return group;
  const elements = [...bridges].flatMap((bridge) => bridge.elements);
  return spread(grouping.board, view, { nodes: seeds, elements });
}
