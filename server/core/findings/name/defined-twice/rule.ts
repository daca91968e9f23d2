import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { groupBy } from '../../../group.ts';
import { later, say } from '../../../language/say.ts';
import type { Link } from '../../../model/wiring.ts';
import { fact } from '../../../reuse/fact.ts';
import { factIndex } from '../../../reuse/fact-index.ts';
import { factOver } from '../../../reuse/fact-over.ts';
import { isSameList } from '../../../same-list.ts';
import { type Scalar, valueUnder } from '../../../syntax/node.ts';
import { ownSheets } from '../../common/own-sheets.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'name/defined-twice',
  severity: 'error',
  title: later`Two things have one name`,
  find: (analysis) => [
    ...findCables(analysis),
    ...(analysis.kind === 'machine' ? findLabels(analysis) : []),
    ...findTerminals(analysis),
  ],
  say: (data) => {
    const name = word(data, 'name');
    if (data.what === 'terminal')
      return say`${word(data, 'owner')} lists the terminal ${name} twice, so a link to ${name} could mean either. Tell them apart as the part does, or remove one.`;
    return say`Two ${word(data, 'what')}s are called ${name}, so lists and computed values could mean either. Give one of them another name.`;
  },
};

function* findCables(analysis: Analysis): Iterable<Found> {
  if (analysis.kind === 'machine')
    yield* repeated(
      analysis.machine.cables.map(({ key }) => key),
      'cable',
      '',
    );
}

/** The labels of wires; the several ends of one link share theirs. */
const findLabels = fact('analysis', (analysis: MachineAnalysis): readonly Found[] => {
  const shared = new Set(sharedLabels(analysis).filter((labels) => labels !== undefined));
  return [...shared].flatMap((labels) => [...repeated(labels, 'wire', '')]);
});

/** At the places of the links: all labels with the text of its own; undefined where no other label has it. */
const sharedLabels = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => machine.links,
  (analysis: MachineAnalysis, link): readonly Scalar[] | undefined => {
    const label = labelOf(link);
    const same = label && labelsBy.get(analysis, label.text);
    return same && same.length > 1 ? same : undefined;
  },
  // All links of one text have the same list, by which it is told once.
  (_, now) => now,
);

/** The labels of one text, in the order of the links. */
const labelsBy = factIndex<MachineAnalysis, Link, string, readonly Scalar[]>(
  'analysis',
  ({ machine }) => machine.links,
  (link) => {
    const label = labelOf(link);
    return label ? [label.text] : [];
  },
  (links) => [...new Set(links.flatMap((link) => labelOf(link) ?? []))],
  isSameList,
);

function labelOf({ wire }: Link): Scalar | undefined {
  const label = valueUnder(wire.own?.node, 'label');
  return label?.kind === 'scalar' ? label : undefined;
}

function* findTerminals(analysis: Analysis): Iterable<Found> {
  for (const { node, name } of ownSheets(analysis)) {
    const section = valueUnder(node, 'terminals');
    const groups = section?.kind === 'map' ? section.pairs.map(({ value }) => value) : [];
    const terminals = groups.flatMap((group) => (group?.kind === 'list' ? group.items : []));
    yield* repeated(
      terminals.filter((item) => item?.kind === 'scalar'),
      'terminal',
      name === 'this sheet' ? 'This sheet' : name,
    );
  }
}

function* repeated(names: readonly Scalar[], what: string, owner: string): Iterable<Found> {
  for (const [name, same] of groupBy(names, (scalar) => scalar.text)) {
    const [first, ...others] = same;
    for (const at of others) {
      yield {
        at,
        data: { name, what, owner },
        related: first ? [{ at: first, note: say`the first ${name}` }] : [],
      };
    }
  }
}
