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
}

const byBoard = new WeakMap<Board, Map<string, readonly number[]>>();

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
  const found = new Map<string, NearRail>();
  const add = (rail: number) => {
    const hold = board.rails.holds.get(rail);
    const key = `${hold?.island} ${hold?.volts}`;
    if (!hold || found.has(key)) return;
    found.set(key, { node: signal, rail, name: nameRail(board, rail), volts: hold.volts });
  };
  for (const part of parts) for (const rail of railsOfPart(board, part)) add(rail);
  for (const { cable, a, b } of cableRails(board)) {
    if (cables.has(cable)) for (const rail of [a, b]) add(rail);
  }
  return [...found.values()];
}

/** The end of an input that carries its signal: the first that no supply holds. */
function signalNode(board: Board, { element }: SolvedInput): number | undefined {
  return (board.endsOf[element] ?? [])
    .map((end) => board.nodeOf[end] ?? 0)
    .find((node) => !board.rails.holds.has(node));
}

function railsOfPart(board: Board, part: string): readonly number[] {
  let byPart = byBoard.get(board);
  if (!byPart) {
    byPart = gatherRails(board);
    byBoard.set(board, byPart);
  }
  return byPart.get(part) ?? [];
}

function gatherRails({ conductors, nodeOf, rails }: Board): Map<string, readonly number[]> {
  const byPart = new Map<string, number[]>();
  for (const [place, terminal] of conductors.terminals.entries()) {
    const node = nodeOf[place] ?? 0;
    if (!rails.holds.has(node)) continue;
    const part = terminal.slice(0, terminal.indexOf('.'));
    const there = byPart.get(part);
    if (!there) byPart.set(part, [node]);
    else if (!there.includes(node)) there.push(node);
  }
  return byPart;
}

function cableRails({ conductors, nodeOf }: Board): { cable: string; a: number; b: number }[] {
  return conductors.all.flatMap(({ link, a, b }) =>
    link?.cable === undefined ? [] : [{ cable: link.cable, a: nodeOf[a] ?? 0, b: nodeOf[b] ?? 0 }],
  );
}

function nameRail(board: Board, rail: number): string {
  const ends = board.supplies.flatMap(({ plus, minus }) => [plus, minus]);
  const end = ends.find((each) => board.nodeOf[each] === rail) ?? board.terminalsOn[rail]?.[0] ?? 0;
  return board.conductors.terminals[end] ?? '';
}
