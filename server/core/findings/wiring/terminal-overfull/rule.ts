import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import type { Part } from '../../../model/machine.ts';
import { partsOf } from '../../../model/resolve.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import type { Link } from '../../../model/wiring.ts';
import type { Fix } from '../../../problem.ts';
import { fact } from '../../../reuse/fact.ts';
import { factOver } from '../../../reuse/fact-over.ts';
import type { Given } from '../../../shape/fields.ts';
import { isFaulty } from '../../common/held-back.ts';
import { elsewhere, isAlone, moveEnd } from '../../common/link-ends.ts';
import { figure, word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { needlessLinks } from '../doubled-links.ts';
import { culprit, railConflicts } from '../rail-conflicts.ts';

export const rule: Rule = {
  code: 'wiring/terminal-overfull',
  severity: 'warning',
  title: later`More conductors end at a terminal than it takes`,
  find: findOverfull,
  say: (data) => {
    const most = figure(data, 'most');
    return say`${figure(data, 'count')} conductors end at ${word(data, 'terminal')}, which takes ${most === 1 ? 'one' : most}: a clamp holds the outermost of too many wires only loosely, and a loose wire gets hot or falls out. Use ${word(data, 'free') === '' ? 'another terminal that is joined to it, or a bar' : word(data, 'free')}.`;
  },
};

function findOverfull(analysis: Analysis): Found[] {
  if (analysis.kind !== 'machine') return [];
  return overfullAt(analysis).flat();
}

/** The links that are at fault themselves: what they join was meant to be joined elsewhere. */
const needless = fact('analysis', (analysis: MachineAnalysis): ReadonlySet<Link | undefined> => {
  const { loops, doubled } = needlessLinks(analysis);
  const culprits = railConflicts(analysis).map((conflict) => culprit(analysis, conflict));
  return new Set([...loops, ...doubled.map(({ link }) => link), ...culprits]);
});

const overfullAt = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => partsOf(machine),
  (analysis: MachineAnalysis, { name, sheet }: Part): readonly Found[] => {
    const most = sheet?.facts.count('conductors-per-terminal');
    if (!sheet || !most) return [];
    return [...sheet.terminals.keys()].flatMap((terminal) => {
      const there = analysis.nets.linksAt(terminalId(name, terminal));
      if (there.length <= most.value) return [];
      const links = there.filter((link) => !needless(analysis).has(link) && !isFaulty(analysis, link.at));
      const last = links.at(-1);
      return last && links.length > most.value ? [describe(analysis, name, terminal, links, last, most)] : [];
    });
  },
);

function describe(
  analysis: MachineAnalysis,
  part: string,
  name: string,
  links: readonly Link[],
  last: Link,
  most: Given<number>,
): Found {
  const terminal = terminalId(part, name);
  const end = [last.to, last.from].find((each) => each.id === terminal) ?? last.to;
  const free = freeBeside(analysis, part, name);
  const edit = free === undefined ? undefined : moveEnd(end, free);
  const fix: Fix | undefined = edit && { title: say`Use ${free} for it`, edits: [edit], safe: false };
  const sheet = analysis.machine.parts.get(part)?.sheet;
  return {
    at: end.at,
    data: { terminal, count: links.length, most: most.value, ...(free !== undefined && { free }) },
    related: [
      { ...elsewhere(analysis, sheet?.file), at: most.at, note: `conductors-per-terminal ${most.text}` },
      ...links.slice(0, -1).map((link) => ({ at: link.at, note: say`ends there as well` })),
    ],
    fixes: fix && isAlone(analysis, last) ? [fix] : [],
  };
}

/** A terminal of the same part that is joined to this one inside it and has no wire yet. */
function freeBeside({ machine, nets }: MachineAnalysis, part: string, name: string): string | undefined {
  const circuits = [...(machine.parts.get(part)?.sheet?.circuits.values() ?? [])];
  return circuits
    .filter(({ kind, ends }) => kind === 'joined' && ends.some(({ text }) => text === name))
    .flatMap(({ ends }) => ends.map(({ text }) => terminalId(part, text)))
    .find((terminal) => !nets.isWired(terminal));
}
