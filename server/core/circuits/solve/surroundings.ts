import type { Board } from './board.ts';
import { findWaysHome, linksFelt } from './breaks.ts';
import type { Conductor } from './conductors.ts';
import type { SolvedInput } from './inputs.ts';
import { type NearRail, railsNear } from './shorts.ts';

/** What can go wrong around an input. */
export interface Surroundings {
  /** The links whose breaking it may feel, and their places among the conductors. */
  readonly links: readonly Conductor[];
  readonly places: readonly number[];
  /** The rails that its signal may touch. */
  readonly near: readonly NearRail[];
}

/**
 * Finds the surroundings of inputs.
 * @param isSameLayout whether the surroundings of an earlier version are still the same, its links' figures aside
 */
export function createSurroundings(
  board: Board,
  isSameLayout: boolean,
): { readonly of: (input: SolvedInput, known: Surroundings | undefined) => Surroundings } {
  let waysHome: Int32Array | undefined;
  const at = (places: readonly number[]) => ({
    places,
    links: places.flatMap((place) => board.conductors.all[place] ?? []),
  });
  return {
    of: (input, known) => {
      if (known && isSameLayout)
        return hasSameLinks(board, known) ? known : { ...at(known.places), near: known.near };
      waysHome ??= findWaysHome(board);
      return { ...at(linksFelt(board, waysHome, input.group)), near: railsNear(board, input) };
    },
  };
}

function hasSameLinks(board: Board, { links, places }: Surroundings): boolean {
  return links.every((link, index) => link === board.conductors.all[places[index] ?? -1]);
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
