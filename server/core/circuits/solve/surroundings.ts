import type { Board } from './board.ts';
import { linksFelt } from './breaks.ts';
import type { Changes } from './changes.ts';
import type { Conductor } from './conductors.ts';
import type { SolvedInput } from './inputs.ts';
import { type NearRail, railsNear } from './shorts.ts';

/** What can go wrong around an input, and what decides that. */
export interface Surroundings {
  /** The links whose breaking it may feel. */
  readonly links: readonly Conductor[];
  readonly near: readonly NearRail[];
}

export function surroundingsOf(board: Board, input: SolvedInput): Surroundings {
  return { links: linksFelt(board, input.group), near: railsNear(board, input) };
}

/** With nothing joined otherwise, what is around an input is where it was; only the links may have other figures. */
export function renewLinks(known: Surroundings, { replaced }: Changes): Surroundings {
  if (!known.links.some((link) => replaced.has(link))) return known;
  return { near: known.near, links: known.links.map((link) => replaced.get(link) ?? link) };
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
