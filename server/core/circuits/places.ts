import type { Machine } from '../model/resolve.ts';
import { terminalId } from '../model/terminal-id.ts';
import { fact } from '../reuse/fact.ts';
import { factMap } from '../reuse/fact-map.ts';
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

/** By the name of a part: where its terminals have their places. */
const seatsOf = factMap(
  'machine',
  (machine: Machine) =>
    new Map(frameIn(machine).seats.flatMap((seat) => (seat.isFree ? [] : [[seat.name, seat]]))),
);

/** The places of terminals that no part has: those of the mains, and those that are not there. */
const placesOfOthers = factMap(
  'machine',
  (machine: Machine) => circuitsOf(machine).solved.board.conductors.others,
);

/** The place of a terminal; undefined where neither a circuit nor a link names it. */
export function placeOfTerminal(machine: Machine, part: string, terminal: string): number | undefined {
  const id = terminalId(part, terminal);
  return seatsOf.get(machine, part)?.placeOf.get(id) ?? placesOfOthers.get(machine, id);
}

/** The place of one end of a circuit. */
export function placeOfEnd(
  machine: Machine,
  { part, circuit }: CircuitAt,
  index: number,
): number | undefined {
  return seatsOf.get(machine, part.name)?.ends.get(circuit)?.[index];
}
