import { compareLists } from '../../reuse/difference.ts';
import type { Board } from './board.ts';
import type { Conductor } from './conductors.ts';
import type { Hold, Supply } from './rails.ts';

/**
 * What differs between the boards of two versions of a machine whose parts have the same sheets. Whatever is not named here is the
 * same on both, at the same place.
 */
export interface Changes {
  /** Elements that were made anew. */
  readonly elements: Set<number>;
  /**
   * Terminals that are on another node, whose node is held otherwise or by others, whose part has another name, or where a
   * conductor is new, gone or changed.
   */
  readonly terminals: ReadonlySet<number>;
  /** The nodes that these terminals are on, or were. */
  readonly nodes: ReadonlySet<number>;
  /**
   * Whether all nodes are what they were and held as they were, with the same conductors in the same order, each in the cable
   * that it was in.
   */
  readonly isSameLayout: boolean;
  /** By those of before: the conductors that stand in their place with other figures, where nothing is joined otherwise. */
  readonly replaced: ReadonlyMap<Conductor, Conductor>;
}

/**
 * Compares the boards of two versions.
 * @returns undefined where the sheets of the parts differ: then nothing is where it was
 */
export function findChanges(before: Board, board: Board): Changes | undefined {
  if (board.conductors.frame.shape !== before.conductors.frame.shape) return undefined;
  const terminals = new Set<number>();
  addRenamed(before, board, terminals);
  const replaced = new Map<Conductor, Conductor>();
  const hasSameCables = addRewired(before, board, terminals, replaced);
  const hasSameNodes = board.nodeOf === before.nodeOf && board.supplies === before.supplies;
  if (!hasSameNodes) {
    addRejoined(before, board, terminals);
    addFedOtherwise(before, board, terminals);
  }
  const nodes = new Set<number>();
  for (const terminal of terminals) {
    for (const node of [before.nodeOf[terminal], board.nodeOf[terminal]]) {
      if (node !== undefined) nodes.add(node);
    }
  }
  return {
    elements: changedElements(before, board),
    terminals,
    nodes,
    isSameLayout: hasSameCables && hasSameNodes,
    replaced,
  };
}

/**
 * All terminals on the rails of islands in which a supply is new, gone, another or held otherwise: what is left when one of
 * them is lost depends on all the others.
 */
function addFedOtherwise(before: Board, board: Board, terminals: Set<number>): void {
  const { gone, come } = compareLists(before.supplies, board.supplies);
  const moved = board.supplies.filter(
    (supply) => !come.has(supply) && isHeldOtherwise(supply, before, board),
  );
  addIslands(before, [...gone, ...moved], terminals);
  addIslands(board, [...come, ...moved], terminals);
}

function isHeldOtherwise({ plus, minus }: Supply, before: Board, board: Board): boolean {
  return [plus, minus].some((end) => {
    const was = before.nodeOf[end] ?? -1;
    const is = board.nodeOf[end] ?? -1;
    return was !== is || !isSameHold(before.rails.holds.get(was), board.rails.holds.get(is));
  });
}

function addIslands(
  { rails: { holds }, nodeOf, terminalsOn }: Board,
  supplies: readonly Supply[],
  terminals: Set<number>,
): void {
  const ends = supplies.flatMap(({ plus, minus }) => [plus, minus]);
  const islands = new Set(ends.map((end) => holds.get(nodeOf[end] ?? -1)?.island));
  for (const [node, { island }] of holds) {
    if (islands.has(island)) for (const terminal of terminalsOn(node)) terminals.add(terminal);
  }
}

function isSameHold(a: Hold | undefined, b: Hold | undefined): boolean {
  return a?.island === b?.island && a?.volts === b?.volts;
}

function changedElements(before: Board, board: Board): Set<number> {
  const changed = new Set<number>();
  if (board.elements === before.elements) return changed;
  for (const [place, element] of board.elements.entries()) {
    if (before.elements[place] !== element) changed.add(place);
  }
  return changed;
}

/** The terminals of parts that have come to be called otherwise. */
function addRenamed(
  { conductors: past }: Board,
  { conductors: present }: Board,
  terminals: Set<number>,
): void {
  if (past.frame === present.frame) return;
  const names = present.frame.terminals;
  for (let place = 0; place < names.length; place++)
    if (past.terminals[place] !== names[place]) terminals.add(place);
}

/**
 * The ends of conductors that only one of the two has, or that have a resistance in one alone. Up to the first that is
 * not the same, places are paired from the start, after it from the end, as a text is when something was typed into it.
 * @returns whether those that are paired are in the same cables
 */
function addRewired(
  before: Board,
  board: Board,
  terminals: Set<number>,
  replaced: Map<Conductor, Conductor>,
): boolean {
  const past = before.conductors.all;
  const present = board.conductors.all;
  const hasOtherNodes = before.nodeOf !== board.nodeOf;
  const isSame = (was: Conductor | undefined, is: Conductor | undefined): boolean =>
    was !== undefined &&
    is !== undefined &&
    was.id === is.id &&
    !(hasOtherNodes && before.isResistive(was) !== board.isResistive(is));
  const add = (conductor: Conductor | undefined) => {
    if (!conductor) return;
    terminals.add(conductor.a);
    terminals.add(conductor.b);
  };
  let hasSameCables = true;
  let start = 0;
  while (start < present.length && isSame(past[start], present[start])) start++;
  const shift = past.length - present.length;
  for (let place = start; place < present.length; place++) {
    const was = place + shift < start ? undefined : past[place + shift];
    if (isSame(was, present[place])) continue;
    const is = present[place];
    if (was && is) replaced.set(was, is);
    add(was);
    add(is);
    if (was?.link?.cable !== is?.link?.cable) hasSameCables = false;
  }
  for (let place = start; place < start + shift; place++) add(past[place]);
  return hasSameCables;
}

/** The terminals that are on another node, and those of nodes that have come to the mains or off. */
function addRejoined(before: Board, board: Board, terminals: Set<number>): void {
  for (let terminal = 0; terminal < Math.max(before.nodeOf.length, board.nodeOf.length); terminal++) {
    if (before.nodeOf[terminal] !== board.nodeOf[terminal]) terminals.add(terminal);
  }
  for (const node of new Set([...before.onMains, ...board.onMains])) {
    if (before.onMains.has(node) === board.onMains.has(node)) continue;
    for (const { terminalsOn } of [before, board])
      for (const terminal of terminalsOn(node)) terminals.add(terminal);
  }
}
