import type { Machine } from '../model/resolve.ts';
import type { Circuit } from '../model/sheet.ts';
import type { TerminalId } from '../model/terminal-id.ts';
import { fact } from '../reuse/fact.ts';
import { factMap } from '../reuse/fact-map.ts';
import { isSameList } from '../same-list.ts';
import type { CircuitAt } from './signals.ts';
import type { Frame } from './solve/frame.ts';
import { circuitsOf } from './solve/solved.ts';

/*
 * The places of terminals, asked for one by one: who asked for some need not be asked again when a link is led elsewhere,
 * or when another part comes to be called otherwise.
 */

/** What the parts bring by themselves; the same object while these and their sheets are the same, whatever is wired. */
export const frameIn = fact(
  'machine',
  (machine: Machine): Frame => circuitsOf(machine).solved.board.conductors.frame,
);

/** The places of terminals that parts have. */
const placesOfParts = factMap('machine', (machine: Machine) => frameIn(machine).placeOf);

/** The places of terminals that no part has: those of the mains, and those that are not there. */
const placesOfOthers = factMap(
  'machine',
  (machine: Machine) => circuitsOf(machine).solved.board.conductors.others,
);

/** By the name of a part: where its circuits end. */
const endsOfParts = factMap('machine', (machine: Machine) => frameIn(machine).endsIn, isSameEnds);

function isSameEnds(before: EndsOfPart, now: EndsOfPart): boolean {
  return (
    before.size === now.size &&
    [...now].every(([circuit, ends]) => isSameList(ends, before.get(circuit) ?? []))
  );
}

type EndsOfPart = ReadonlyMap<Circuit, readonly number[]>;

/** The place of a terminal; undefined where neither a circuit nor a link names it. */
export function placeOfTerminal(machine: Machine, terminal: TerminalId): number | undefined {
  return placesOfParts.get(machine, terminal) ?? placesOfOthers.get(machine, terminal);
}

/** The place of one end of a circuit. */
export function placeOfEnd(
  machine: Machine,
  { part, circuit }: CircuitAt,
  index: number,
): number | undefined {
  return endsOfParts.get(machine, part.name)?.get(circuit)?.[index];
}
