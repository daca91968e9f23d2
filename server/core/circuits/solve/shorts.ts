import type { Board } from './board.ts';
import type { Short } from './circuit.ts';
import { linksOf } from './groups.ts';
import type { SolvedInput } from './inputs.ts';

/** A rail that the signal of an input could touch. */
export interface NearRail extends Short {
  /** One of the rail's terminals, where possible one of its supply. */
  readonly name: string;
  /** Above the zero of its island. */
  readonly volts: number;
  readonly isOnMains: boolean;
}

const byBoard = new WeakMap<Board, Neighbours>();

/**
 * The rails that run beside the signal of an input: in the part that reads it, in the part that acts on it, and in the
 * cables of its wires. Rails at the same voltage of the same island count once.
 */
export function railsNear(board: Board, input: SolvedInput): NearRail[] {
  const signal = signalNode(board, input);
  if (signal === undefined) return [];
  const cables = new Set(linksOf(board, input.group).flatMap(({ cable }) => cable ?? []));
  const parts = new Set([
    input.at.part.name,
    ...(input.operations[0] ? [input.operations[0].actor.part] : []),
  ]);
  const near = railsOf(board);
  const found = new Map<string, NearRail>();
  const add = (rail: number) => {
    const hold = board.rails.holds.get(rail);
    const key = `${hold?.island} ${hold?.volts}`;
    if (!hold || found.has(key)) return;
    found.set(key, {
      node: signal,
      rail,
      name: nameRail(board, rail),
      volts: hold.volts,
      isOnMains: board.onMains.has(rail),
    });
  };
  for (const part of parts) for (const rail of near.byPart.get(part) ?? []) add(rail);
  for (const cable of cables) for (const rail of near.byCable.get(cable) ?? []) add(rail);
  return [...found.values()];
}

/** The end of an input that carries its signal: the first that no supply holds. */
function signalNode(board: Board, { element }: SolvedInput): number | undefined {
  return (board.endsOf[element] ?? [])
    .map((end) => board.nodeOf[end] ?? 0)
    .find((node) => !board.rails.holds.has(node));
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
  for (const [place, terminal] of conductors.terminals.entries())
    add(byPart, terminal.slice(0, terminal.indexOf('.')), place);
  for (const { link, a, b } of conductors.all) {
    if (link?.cable === undefined) continue;
    add(byCable, link.cable, a);
    add(byCable, link.cable, b);
  }
  return { byPart, byCable };
}

function nameRail(board: Board, rail: number): string {
  const end = board.supplyEndsOn.get(rail)?.[0]?.terminal ?? board.terminalsOn[rail]?.[0] ?? 0;
  return board.conductors.terminals[end] ?? '';
}
