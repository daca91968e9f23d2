import type { Board } from './board.ts';
import type { Short } from './circuit.ts';
import type { SolvedInput } from './inputs.ts';

/** A rail that the signal of an input could touch. */
export interface NearRail extends Short {
  /** A terminal of the signal's way that touches the rail. */
  readonly terminal: string;
  /** One of the rail's terminals, where possible one of its supply. */
  readonly name: string;
  /** Above the zero of its island. */
  readonly volts: number;
  readonly isOnMains: boolean;
}

/** The rails near to an input's signal, and what decides which they are. */
export interface NearRails {
  readonly near: readonly NearRail[];
  /** The parts that the signal comes to, and the cables that it runs in. */
  readonly parts: ReadonlySet<string>;
  readonly cables: ReadonlySet<string>;
}

const byBoard = new WeakMap<Board, Neighbours>();

/**
 * The rails that run beside the way of an input's signal, for each stretch of it between two things that can switch: in
 * the parts that the stretch comes to, and in the cables of its wires. Rails at the same voltage of the same island
 * count once for each stretch.
 */
export function railsNear(board: Board, input: SolvedInput): NearRails {
  const rails = railsOf(board);
  const [allParts, allCables] = [new Set<string>(), new Set<string>()];
  const near = stretchesOf(board, input).flatMap((nodes) => {
    const [node] = nodes;
    const terminals = nodes.flatMap((each) => board.terminalsOn(each));
    const [first] = terminals;
    if (node === undefined || first === undefined) return [];
    const name = (terminal: number) => board.conductors.terminals[terminal] ?? '';
    const parts = new Set(terminals.map((terminal) => partIn(name(terminal))));
    const links = terminals.flatMap((terminal) => board.conductors.at[terminal] ?? []);
    const cables = new Set(links.flatMap((place) => board.conductors.all[place]?.link?.cable ?? []));
    const found = new Map<string, NearRail>();
    const add = (rail: number) => {
      const hold = board.rails.holds.get(rail);
      const key = `${hold?.island} ${hold?.volts}`;
      if (!hold || found.has(key)) return;
      const isOnMains = board.onMains.has(rail);
      const at = { node, rail, terminal: name(first), name: nameRail(board, rail) };
      found.set(key, { ...at, volts: hold.volts, isOnMains });
    };
    for (const part of parts) {
      allParts.add(part);
      for (const rail of rails.byPart.get(part) ?? []) add(rail);
    }
    for (const cable of cables) {
      allCables.add(cable);
      for (const rail of rails.byCable.get(cable) ?? []) add(rail);
    }
    return [...found.values()];
  });
  return { near, parts: allParts, cables: allCables };
}

/** The nodes of a group by the stretches that wires make of them, that of the input first. */
function stretchesOf(board: Board, { element, group }: SolvedInput): number[][] {
  const own = (board.endsOf[element] ?? []).map((end) => board.nodeOf[end] ?? 0);
  const stretches = new Map<number, number[]>(group.nodes.map((node) => [node, [node]]));
  for (const { a, b } of group.wires) {
    const [one, other] = [a, b].map((end) => stretches.get(board.nodeOf[end] ?? -1));
    if (!one || !other || one === other) continue;
    one.push(...other);
    for (const node of other) stretches.set(node, one);
  }
  const all = [...new Set(stretches.values())];
  const isOwn = (nodes: readonly number[]) => nodes.some((node) => own.includes(node));
  // Within a stretch the input's own terminal comes first, so that the fault is called by it.
  const ordered = [...all.filter(isOwn), ...all.filter((nodes) => !isOwn(nodes))];
  return ordered.map((nodes) => [
    ...nodes.filter((node) => own.includes(node)),
    ...nodes.filter((node) => !own.includes(node)),
  ]);
}

/** The part that a terminal belongs to, by its name. */
export function partIn(terminal: string): string {
  return terminal.slice(0, terminal.indexOf('.'));
}

/** The rails that come into each part, and that run in each cable. */
interface Neighbours {
  readonly byPart: ReadonlyMap<string, ReadonlySet<number>>;
  readonly byCable: ReadonlyMap<string, ReadonlySet<number>>;
}

function railsOf(board: Board): Neighbours {
  let near = byBoard.get(board);
  if (!near) {
    near = gatherRails(board);
    byBoard.set(board, near);
  }
  return near;
}

function gatherRails({ conductors, nodeOf, rails }: Board): Neighbours {
  const byPart = new Map<string, Set<number>>();
  const byCable = new Map<string, Set<number>>();
  const add = (to: Map<string, Set<number>>, name: string, terminal: number) => {
    const node = nodeOf[terminal] ?? 0;
    if (!rails.holds.has(node)) return;
    const there = to.get(name);
    if (there) there.add(node);
    else to.set(name, new Set([node]));
  };
  for (const [place, terminal] of conductors.terminals.entries()) add(byPart, partIn(terminal), place);
  for (const { link, a, b } of conductors.all) {
    if (link?.cable === undefined) continue;
    add(byCable, link.cable, a);
    add(byCable, link.cable, b);
  }
  return { byPart, byCable };
}

function nameRail(board: Board, rail: number): string {
  const end = board.supplyEndsOn.get(rail)?.[0]?.terminal ?? board.terminalsOn(rail)[0] ?? 0;
  return board.conductors.terminals[end] ?? '';
}
