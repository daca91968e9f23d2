import type { MachineAnalysis } from '../../analysis.ts';
import type { End } from '../../model/link.ts';
import type { Machine } from '../../model/resolve.ts';
import type { TerminalId } from '../../model/terminal-id.ts';
import type { Link } from '../../model/wiring.ts';
import type { Edit } from '../../problem.ts';
import { factGroups } from '../../reuse/fact-index.ts';
import type { Scalar } from '../../syntax/node.ts';
import type { FileId } from '../../world.ts';
import { showsText } from './edits.ts';

/** The ends of links that are at a terminal, in the order of the text; each place of the text once. */
export function endsAt({ nets }: MachineAnalysis, terminal: TerminalId): End[] {
  const ends = nets.linksAt(terminal).flatMap(({ from, to }) => [from, to]);
  const found = new Map<string, End>();
  for (const end of ends) {
    if (end.id !== terminal) continue;
    // The links of `a.1 -> b.1, c.1` share their first end.
    const same = [...found.values()].some(({ at }) => at.block === end.at.block && at.from === end.at.from);
    if (!same) found.set(`${found.size}`, end);
  }
  return [...found.values()];
}

/** Lets an end of a link be at another terminal; undefined where the text does not show it letter by letter. */
export function moveEnd(end: End, terminal: TerminalId): Edit | undefined {
  return showsText(end.at, end.id) ? { at: end.at, text: terminal } : undefined;
}

/** Exchanges what is joined to two terminals; undefined where nothing is, or the text cannot be changed. */
export function swapTerminals(
  analysis: MachineAnalysis,
  a: TerminalId,
  b: TerminalId,
  isMeant: (end: End) => boolean = () => true,
): Edit[] | undefined {
  const moved = [
    ...endsAt(analysis, a)
      .filter(isMeant)
      .map((end) => moveEnd(end, b)),
    ...endsAt(analysis, b)
      .filter(isMeant)
      .map((end) => moveEnd(end, a)),
  ];
  const edits = moved.filter((edit) => edit !== undefined);
  return edits.length > 0 && edits.length === moved.length ? edits : undefined;
}

/** Whether a link is all that is written in its text; an end that several share cannot be moved for one of them. */
export function isAlone({ machine }: MachineAnalysis, { at }: Link): boolean {
  return linksIn.get(machine, at)?.length === 1;
}

const linksIn = factGroups<Machine, Link, Scalar>(
  'machine',
  ({ links }) => links,
  ({ at }) => [at],
);

/** The file of a place for a related note; nothing for the analysed file itself. */
export function elsewhere({ file }: MachineAnalysis, other: FileId | undefined): { file?: FileId } {
  return other === undefined || other === file ? {} : { file: other };
}
