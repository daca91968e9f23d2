import { MAINS, type Machine, mainsTerminals } from '../../model/resolve.ts';
import { factOver } from '../../reuse/fact-over.ts';
import { sheetOf } from '../common/own-sheets.ts';
import type { TerminalMention } from './references.ts';

/** What is doubtful about a link by its ends. */
interface InQuestion {
  /** Whether an end names something that is no part. */
  readonly isOfUnknownPart: boolean;
  /** Whether an end names a terminal that its part does not have. */
  readonly isAtUnknownTerminal: boolean;
  /** The parts that it was probably meant for, at another terminal. */
  readonly doubtful: readonly string[];
}

/** At the places of the links; undefined for nearly all of them, of which nothing is doubtful. */
export const endsInQuestion = factOver(
  'machine',
  ({ links }: Machine) => links,
  (machine: Machine, { from, to }): InQuestion | undefined => {
    const ends = [from, to];
    const isOfUnknownPart = ends.some(({ part }) => isUnknownPart(machine, part));
    const isAtUnknownTerminal = ends.some((end) => isUnknownTerminal(machine, end));
    const doubtful = ends.flatMap(({ part, terminal }) => {
      const isFlawed = from.id === to.id || machine.parts.get(part)?.sheet?.terminals.has(terminal) === false;
      return isFlawed ? [part] : [];
    });
    return isOfUnknownPart || isAtUnknownTerminal || doubtful.length > 0
      ? { isOfUnknownPart, isAtUnknownTerminal, doubtful }
      : undefined;
  },
);

/** Whether a name stands for no part. */
export function isUnknownPart({ parts }: Machine, name: string): boolean {
  return name !== '' && name !== MAINS && !parts.has(name);
}

/** Whether a part does not have a terminal; false while nobody knows which it has. */
export function isUnknownTerminal(
  machine: Machine,
  { part, terminal }: Pick<TerminalMention, 'part' | 'terminal'>,
): boolean {
  const known = machine.parts.get(part);
  if (!known) return part === MAINS && !mainsTerminals(machine).includes(terminal);
  return sheetOf(known)?.terminals.has(terminal) === false;
}
