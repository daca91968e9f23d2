import type { MachineAnalysis } from '../../analysis.ts';
import { terminalId } from '../../circuits/nets.ts';
import type { Link } from '../../model/wiring.ts';
import { fact } from '../../reuse/fact.ts';
import { isFaulty } from '../common/held-back.ts';

/** Links that say nothing: what they join is joined already. */
interface Needless {
  /** From a terminal to itself. */
  readonly loops: readonly Link[];
  /** Between two terminals that an earlier link joins. */
  readonly doubled: readonly { readonly link: Link; readonly first: Link }[];
}

/** Finds links that join nothing new by themselves; each was probably meant for another terminal. */
export const needlessLinks = fact('analysis', find);

function find(analysis: MachineAnalysis): Needless {
  const loops: Link[] = [];
  const doubled: { link: Link; first: Link }[] = [];
  const byEnds = new Map<string, Link>();
  for (const link of analysis.machine.links) {
    if (isFaulty(analysis, link.at)) continue;
    const from = terminalId(link.from.part, link.from.terminal);
    const to = terminalId(link.to.part, link.to.terminal);
    const key = from < to ? `${from} ${to}` : `${to} ${from}`;
    const first = byEnds.get(key);
    if (from === to) loops.push(link);
    else if (first) doubled.push({ link, first });
    else byEnds.set(key, link);
  }
  return { loops, doubled };
}

/** The terminals at which a needless link ends. */
export function needlessEnds(analysis: MachineAnalysis): string[] {
  const { loops, doubled } = needlessLinks(analysis);
  return [...loops, ...doubled.map(({ link }) => link)].flatMap(({ from, to }) =>
    [from, to].map(({ part, terminal }) => terminalId(part, terminal)),
  );
}
