import type { Machine } from '../model/resolve.ts';
import type { TerminalId } from '../model/terminal-id.ts';
import { fact } from '../reuse/fact.ts';
import { factMap } from '../reuse/fact-map.ts';
import type { CircuitAt } from './signals.ts';
import type { Frame } from './solve/frame.ts';
import { circuitsOf } from './solve/solved.ts';

/*
 * The places of terminals, asked for one by one. Those of the parts stay where they are whatever is wired, so who asks for
 * them need not be asked again when a link is led elsewhere.
 */

/** What the parts bring by themselves; the same object while these and their sheets are the same, whatever is wired. */
export const frameIn = fact(
  'machine',
  (machine: Machine): Frame => circuitsOf(machine).solved.board.conductors.frame,
);

/** The places of terminals that no part has: those of the mains, and those that are not there. */
const placesOfOthers = factMap(
  'machine',
  (machine: Machine) => circuitsOf(machine).solved.board.conductors.others,
);

/** The place of a terminal; undefined where neither a circuit nor a link names it. */
export function placeOfTerminal(machine: Machine, terminal: TerminalId): number | undefined {
  return frameIn(machine).placeOf.get(terminal) ?? placesOfOthers.get(machine, terminal);
}

/** The place of one end of a circuit. */
export function placeOfEndIn(
  machine: Machine,
  { part, circuit }: CircuitAt,
  index: number,
): number | undefined {
  return frameIn(machine).endsIn.get(part.name)?.get(circuit)?.[index];
}
