import { keptBy } from '../../reuse/kept-by.ts';
import type { Board } from './board.ts';
import type { Short } from './circuit.ts';
import type { SolvedInput } from './inputs.ts';
import { partIn, whereaboutsOn } from './whereabouts.ts';

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

/**
 * The rails that run beside the way of an input's signal, for each stretch of it between two things that can switch: in
 * the parts that the stretch comes to, and in the cables of its wires. Rails at the same voltage of the same island
 * count once for each stretch.
 */
export function railsNear(board: Board, input: SolvedInput): NearRail[] {
  const rails = railsOf(board);
  return stretchesOf(board, input).flatMap((nodes) => {
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
    for (const part of parts) for (const rail of rails.ofPart(part)) add(rail);
    for (const cable of cables) for (const rail of rails.inCable(cable)) add(rail);
    return [...found.values()];
  });
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

/** The nodes of the rails that come into a part, by its name, or that run in a cable. */
interface Neighbours {
  readonly ofPart: (name: string) => ReadonlySet<number>;
  readonly inCable: (name: string) => ReadonlySet<number>;
}

const railsOf = keptBy((board: Board): Neighbours => {
  const { nodeOf, rails } = board;
  const { ofPart, ofCable } = whereaboutsOn(board);
  /** Many signals come to the same part, or run in the same cable. */
  const railsAmong = (terminalsOf: (name: string) => readonly number[]) => {
    const known = new Map<string, ReadonlySet<number>>();
    return (name: string): ReadonlySet<number> => {
      let near = known.get(name);
      if (!near) {
        const nodes = terminalsOf(name).map((terminal) => nodeOf[terminal] ?? 0);
        near = new Set(nodes.filter((node) => rails.holds.has(node)));
        known.set(name, near);
      }
      return near;
    };
  };
  return { ofPart: railsAmong(ofPart), inCable: railsAmong(ofCable) };
});

function nameRail(board: Board, rail: number): string {
  const end = board.supplyEndsOn.get(rail)?.[0]?.terminal ?? board.terminalsOn(rail)[0] ?? 0;
  return board.conductors.terminals[end] ?? '';
}
