import type { MachineAnalysis } from '../../analysis.ts';
import { terminalId } from '../../model/terminal-id.ts';
import type { Link } from '../../model/wiring.ts';
import { fact, keepIf } from '../../reuse/fact.ts';
import { factOver } from '../../reuse/fact-over.ts';
import { isSameList } from '../../same-list.ts';
import { isFaulty } from '../common/held-back.ts';

/** Links that say nothing: what they join is joined already. */
interface Needless {
  /** From a terminal to itself. */
  readonly loops: readonly Link[];
  /** Between two terminals that an earlier link joins. */
  readonly doubled: readonly { readonly link: Link; readonly first: Link }[];
}

/** Finds links that join nothing new by themselves; each was probably meant for another terminal. */
export const needlessLinks = fact('analysis', find, keepIf(isSame));

function isSame(a: Needless, b: Needless): boolean {
  return (
    isSameList(a.loops, b.loops) &&
    a.doubled.length === b.doubled.length &&
    a.doubled.every(({ link, first }, place) => {
      const other = b.doubled[place];
      return other?.link === link && other.first === first;
    })
  );
}

function find(analysis: MachineAnalysis): Needless {
  const { links } = analysis.machine;
  const { loops, doubled } = needlessPlaces(analysis);
  return {
    loops: loops.flatMap((place) => links[place] ?? []),
    doubled: doubled.flatMap(({ place, first }) => {
      const [link, other] = [links[place], links[first]];
      return link && other ? [{ link, first: other }] : [];
    }),
  };
}

/** Where these links stand in the list of all. That is the same while all of them have the ends that they had. */
interface NeedlessPlaces {
  readonly loops: readonly number[];
  readonly doubled: readonly { readonly place: number; readonly first: number }[];
}

const needlessPlaces = fact('analysis', (analysis: MachineAnalysis): NeedlessPlaces => {
  const loops: number[] = [];
  const doubled: { place: number; first: number }[] = [];
  const byEnds = new Map<string, number>();
  for (const [place, key] of keys(analysis).entries()) {
    if (key === undefined) continue;
    const first = byEnds.get(key);
    if (key === LOOP) loops.push(place);
    else if (first !== undefined) doubled.push({ place, first });
    else byEnds.set(key, place);
  }
  return { loops, doubled };
});

/** Stands for both ends of a link from a terminal to itself. */
const LOOP = '';

/** Both ends of each link, whichever way it is written; undefined for those at fault. */
const keys = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => machine.links,
  (analysis: MachineAnalysis, link): string | undefined => {
    if (isFaulty(analysis, link.at)) return undefined;
    const from = link.from.id;
    const to = link.to.id;
    if (from === to) return LOOP;
    return from < to ? `${from} ${to}` : `${to} ${from}`;
  },
);

/** The terminals at which a needless link ends. */
export function needlessEnds(analysis: MachineAnalysis): string[] {
  const { loops, doubled } = needlessLinks(analysis);
  return [...loops, ...doubled.map(({ link }) => link)].flatMap(({ from, to }) =>
    [from, to].map(({ part, terminal }) => terminalId(part, terminal)),
  );
}
