import type { MachineAnalysis } from '../../analysis.ts';
import { terminalId } from '../../model/terminal-id.ts';
import type { Link } from '../../model/wiring.ts';
import { fact, keepIf } from '../../reuse/fact.ts';
import { factGroups } from '../../reuse/fact-index.ts';
import { factOver } from '../../reuse/fact-over.ts';
import { isSameList } from '../../same-list.ts';
import { isFaulty } from '../common/held-back.ts';

/** Links that say nothing: what they join is joined already. */
interface Needless {
  /** From a terminal to itself. */
  readonly loops: readonly Link[];
  /** Between two terminals that an earlier link joins. */
  readonly doubled: readonly Repeat[];
}

/** Finds links that join nothing new by themselves; each was probably meant for another terminal. */
export const needlessLinks = fact('analysis', find, keepIf(isSame));

function find(analysis: MachineAnalysis): Needless {
  const needless = repeated(analysis).filter((repeat) => repeat !== undefined);
  return {
    loops: needless.flatMap(({ link, first }) => (link === first ? [link] : [])),
    doubled: needless.filter(({ link, first }) => link !== first),
  };
}

function isSame(a: Needless, b: Needless): boolean {
  return isSameList(a.loops, b.loops) && isSameList(a.doubled, b.doubled);
}

/** A link, and the one that joins its ends before it does: itself where both are one terminal. */
interface Repeat {
  readonly link: Link;
  readonly first: Link;
}

/** At the places of the links; undefined for nearly all of them, which join something, and for those at fault. */
const repeated = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => machine.links,
  (analysis: MachineAnalysis, link): Repeat | undefined => {
    if (isFaulty(analysis, link.at)) return undefined;
    if (link.from.id === link.to.id) return { link, first: link };
    const same = byEnds.get(analysis, nameEnds(link)) ?? [];
    const first = same.find(({ at }) => !isFaulty(analysis, at));
    return first && first !== link ? { link, first } : undefined;
  },
);

const byEnds = factGroups(
  'analysis',
  ({ machine }: MachineAnalysis) => machine.links,
  (link) => [nameEnds(link)],
);

/** Both ends of a link, whichever way it is written. */
function nameEnds({ from, to }: Link): string {
  return from.id < to.id ? `${from.id} ${to.id}` : `${to.id} ${from.id}`;
}

/** The terminals at which a needless link ends. */
export function needlessEnds(analysis: MachineAnalysis): string[] {
  const { loops, doubled } = needlessLinks(analysis);
  return [...loops, ...doubled.map(({ link }) => link)].flatMap(({ from, to }) =>
    [from, to].map(({ part, terminal }) => terminalId(part, terminal)),
  );
}
