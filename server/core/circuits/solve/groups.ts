import { groupBy } from '../../group.ts';
import { createSets } from '../sets.ts';
import type { Board } from './board.ts';
import type { Conductor } from './conductors.ts';
import type { Holds } from './rails.ts';

/** The machine as it is, or with one thing changed: a conductor taken away, or other rails. */
export interface View {
  readonly holds: Holds;
  /** The conductor that is broken. */
  readonly broken: Conductor | undefined;
  /** The terminals that its break cuts off from their node; they are on a node of their own then. */
  readonly cutOff: ReadonlySet<number>;
}

/** What is solved together: everything that can pass a current on without going through a rail. */
export interface Group {
  /** After the first circuit in it that looks at something, else after its first circuit: `panel.x-far`. */
  readonly name: string;
  /** Nodes that no supply holds. */
  readonly nodes: readonly number[];
  /** Places in the board's list. */
  readonly elements: readonly number[];
  /** The conductors with a resistance. */
  readonly wires: readonly Conductor[];
  /** The islands of supplies whose rails it touches. */
  readonly islands: readonly number[];
}

const NOTHING: ReadonlySet<number> = new Set();

/** The machine as it is. */
export function plainView(board: Board): View {
  return { holds: board.rails.holds, broken: undefined, cutOff: NOTHING };
}

/** The node that a terminal is on; terminals that a break cut off are on a node beyond all others. */
export function nodeAt(board: Board, { cutOff }: View, terminal: number): number {
  return cutOff.has(terminal) ? board.conductors.terminals.length : (board.nodeOf[terminal] ?? 0);
}

/**
 * Splits everything into groups, in the order of the machine's circuits. Each element is in exactly one.
 * @param known the group of an element, where it is known from an earlier version
 */
export function findGroups(
  board: Board,
  known: (element: number) => Group | undefined = () => undefined,
): Group[] {
  const view = plainView(board);
  const seen = new Uint8Array(board.elements.length);
  const groups: Group[] = [];
  for (let element = 0; element < board.elements.length; element++) {
    if (seen[element] || !board.elements[element]) continue;
    const group = known(element) ?? spread(board, view, { elements: [element] });
    for (const each of group.elements) seen[each] = 1;
    groups.push(group);
  }
  return joinBridges(board, view, groups);
}

/** Whether a group reaches from one island of supplies to another: how far apart these are is for it to say. */
export const isBridge = ({ islands }: Group): boolean => islands.length > 1;

/**
 * Joins the groups that reach between the same islands. One alone carries nothing from one island to another, since
 * nothing would come back; two close a loop, in which each feels what the other carries.
 */
function joinBridges(board: Board, view: View, groups: Group[]): Group[] {
  const bridges = groups.filter(isBridge);
  if (bridges.length < 2) return groups;
  const sets = createSets(bridges.length);
  const firstAt = new Map<number, number>();
  for (const [place, { islands }] of bridges.entries()) {
    for (const island of islands) {
      const first = firstAt.get(island);
      if (first === undefined) firstAt.set(island, place);
      else sets.join(first, place);
    }
  }
  const joined = new Map<Group, Group>();
  for (const together of groupBy(bridges.keys(), sets.find).values()) {
    if (together.length === 1) continue;
    const members = together.flatMap((place) => bridges[place] ?? []);
    const whole = spread(board, view, { elements: members.flatMap(({ elements }) => elements) });
    for (const group of members) joined.set(group, whole);
  }
  return [...new Set(groups.map((group) => joined.get(group) ?? group))];
}

/** Where a group begins. */
interface Seeds {
  readonly nodes?: readonly number[];
  readonly elements?: readonly number[];
}

/** Gathers what hangs together with some nodes and elements, without going through rails. */
export function spread(board: Board, view: View, seeds: Seeds): Group {
  const nodes = new Set<number>();
  const elements = new Set<number>();
  const wires = new Set<number>();
  const islands = new Set<number>();
  const open = (seeds.nodes ?? []).filter((node) => !view.holds.has(node));
  const reach = (terminal: number) => {
    const node = nodeAt(board, view, terminal);
    const hold = view.holds.get(node);
    if (hold) islands.add(hold.island);
    else if (!nodes.has(node)) open.push(node);
  };
  const take = (element: number) => {
    if (elements.has(element)) return;
    elements.add(element);
    for (const end of board.endsOf[element] ?? []) reach(end);
  };
  for (const element of seeds.elements ?? []) take(element);
  for (let node = open.pop(); node !== undefined; node = open.pop()) {
    if (nodes.has(node)) continue;
    nodes.add(node);
    for (const terminal of terminalsOf(board, view, node)) {
      for (const element of board.elementsAt[terminal] ?? []) take(element);
      for (const place of board.conductors.at[terminal] ?? []) {
        const conductor = board.conductors.all[place];
        if (!conductor || conductor.id === view.broken?.id || !board.isResistive(conductor)) continue;
        wires.add(place);
        reach(conductor.a);
        reach(conductor.b);
      }
    }
  }
  const inOrder = (places: ReadonlySet<number>) => [...places].sort((a, b) => a - b);
  return named(board, {
    nodes: inOrder(nodes),
    elements: inOrder(elements),
    wires: inOrder(wires).flatMap((place) => board.conductors.all[place] ?? []),
    islands: inOrder(islands),
  });
}

/** The places of the conductors that end on the nodes of a group, those with a resistance among them, in order. */
export function conductorsOf(board: Board, group: Group): number[] {
  const places = new Set<number>();
  for (const node of group.nodes) {
    for (const terminal of board.terminalsOn(node)) {
      for (const place of board.conductors.at[terminal] ?? []) places.add(place);
    }
  }
  return [...places].sort((a, b) => a - b);
}

/** The parts that a group's circuits belong to, in the order of the machine. */
export function partsOf(board: Board, group: Group): string[] {
  return [...new Set(group.elements.map((element) => board.elements[element]?.at.part.name ?? ''))];
}

/** The terminals of a node; what a break cuts off of a free node is gathered with it, since both parts feel the break. */
function terminalsOf(board: Board, { cutOff }: View, node: number): readonly number[] {
  return node === board.conductors.terminals.length ? [...cutOff] : board.terminalsOn(node);
}

function named(board: Board, group: Omit<Group, 'name'>): Group {
  const first =
    group.elements.find((element) => board.elements[element]?.reads !== undefined) ?? group.elements[0];
  const at = first === undefined ? undefined : board.elements[first]?.at;
  return { ...group, name: at ? `${at.part.name}.${at.circuit.name}` : '' };
}
