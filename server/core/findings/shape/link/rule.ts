import { later, said, say } from '../../../language/say.ts';
import type { LinkFault } from '../../../model/link.ts';
import { pick } from '../../../pick.ts';
import type { Data } from '../../../problem.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

/** What is wrong with the text of a link, by the reader's word for it. */
const WHY: Readonly<Record<LinkFault, (data: Data) => string>> = {
  'no-arrow': (data) =>
    data.found === undefined
      ? say`This link has no arrow, so it joins nothing.`
      : say`A link is written with ->, not with ${word(data, 'found')}.`,
  'no-start': () => say`This link has no start, so it joins nothing.`,
  'no-end': () => say`This link has no end after the arrow or a comma, so it joins nothing there.`,
  'no-terminal': (data) =>
    say`${word(data, 'end') || 'This end'} names a part and no terminal of it, so it is not known where the wire goes.`,
  'no-part': (data) =>
    say`${word(data, 'end') || 'This end'} names a terminal and not the part that it belongs to.`,
  chain: () =>
    say`There are two arrows, and it is not clear which wires that means. Write one link for each wire.`,
  'several-starts': () =>
    say`Several starts stand before the arrow. One start can go to several ends: turn the link round or write several links.`,
};

const EXAMPLE = later`Write part.terminal -> part.terminal, such as panel.XP -> drive-x.PUL-.`;

export const rule: Rule = {
  code: 'shape/link',
  severity: 'error',
  title: later`A link cannot be read`,
  find: fromProblems('shape/link'),
  say: (data) => {
    const why = word(data, 'why');
    const words = pick(WHY, why)?.(data) ?? say`This link cannot be read.`;
    return why === 'chain' || why === 'several-starts' ? words : `${words} ${said(EXAMPLE)}`;
  },
};
