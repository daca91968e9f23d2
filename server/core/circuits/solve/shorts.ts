import { groupBy } from '../../group.ts';
import { keptBy } from '../../reuse/kept-by.ts';
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
      for (const rail of rails.ofPart(part)) add(rail);
    }
    for (const cable of cables) {
      allCables.add(cable);
      for (const rail of rails.inCable(cable)) add(rail);
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

/** The nodes of the rails that come into a part, by its name, or that run in a cable. */
interface Neighbours {
  readonly ofPart: (name: string) => ReadonlySet<number>;
  readonly inCable: (name: string) => ReadonlySet<number>;
}

const railsOf = keptBy(gatherRails);

/** Inputs are near to few parts and cables, so each is looked at when it is asked for. */
function gatherRails({ conductors, nodeOf, rails }: Board): Neighbours {
  const { frame, terminals } = conductors;
  const railsAt = (some: readonly number[]): ReadonlySet<number> =>
    new Set(some.map((terminal) => nodeOf[terminal] ?? 0).filter((node) => rails.holds.has(node)));
  // Terminals that only links name come behind those of the circuits.
  const first = frame.terminals.length;
  const others = groupBy(
    Array.from({ length: terminals.length - first }, (_, place) => first + place),
    (place) => partIn(terminals[place] ?? ''),
  );
  const known = new Map<string, ReadonlySet<number>>();
  let inCables: ReadonlyMap<string, ReadonlySet<number>> | undefined;
  return {
    ofPart: (name) => {
      let near = known.get(name);
      if (!near) {
        const own = [...(frame.endsIn.get(name)?.values() ?? [])].flat();
        near = railsAt([...new Set(own)].sort((a, b) => a - b).concat(others.get(name) ?? []));
        known.set(name, near);
      }
      return near;
    },
    inCable: (name) => {
      inCables ??= new Map(
        [...placesInCables(conductors.all)].map(([cable, places]) => [cable, railsAt(places)]),
      );
      return inCables.get(name) ?? NONE;
    },
  };
}

const NONE: ReadonlySet<number> = new Set();

/** The terminals at which the cores of each cable end. */
function placesInCables(all: Board['conductors']['all']): ReadonlyMap<string, readonly number[]> {
  const places = new Map<string, number[]>();
  for (const { link, a, b } of all) {
    if (link?.cable === undefined) continue;
    const there = places.get(link.cable);
    if (there) there.push(a, b);
    else places.set(link.cable, [a, b]);
  }
  return places;
}

function nameRail(board: Board, rail: number): string {
  const end = board.supplyEndsOn.get(rail)?.[0]?.terminal ?? board.terminalsOn(rail)[0] ?? 0;
  return board.conductors.terminals[end] ?? '';
}
