import { lineEnd, replaceRange } from '../findings/common/edits.ts';
import { splitLink } from '../format/link.ts';
import { splitComment } from '../format/scan.ts';
import { say } from '../language/say.ts';
import { readLinkText } from '../model/link.ts';
import { linesOfItem } from './lines.ts';
import type { Place, Refactoring } from './refactoring.ts';

/** A link from one end to several becomes one link for each, so that each can have its own wire. */
export function* splitLinks({ analysis, steps }: Place): Generator<Refactoring> {
  const step = steps.findLast((each) => each.kind === 'item');
  const item = step?.item;
  if (
    analysis.kind !== 'machine' ||
    !step ||
    step.list.flow ||
    item?.kind !== 'scalar' ||
    item.style !== 'plain'
  )
    return;
  const { from, to, problem } = readLinkText(item);
  const lines = linesOfItem(analysis.tree, item);
  if (problem || !from || to.length < 2 || !lines) return;
  const { tree } = analysis;
  const line = tree.text.slice(lines.from, lines.to);
  if (/\n./.test(line)) return;
  const { code, comment } = splitComment(line.trimEnd());
  const dash = /^ *- +/.exec(code)?.[0] ?? '';
  const { wire } = splitLink(item.text);
  const start = `${dash}${from.part}.${from.terminal} -> `;
  const each = to.map(({ part, terminal }) => `${start}${part}.${terminal}${wire === '' ? '' : `  ${wire}`}`);
  if (comment !== '') each[0] += `  ${comment}`;
  const edit = replaceRange(tree, lines.from, lines.from + line.trimEnd().length, each.join(lineEnd(tree)));
  if (edit) yield { title: say`Split into ${to.length} links`, kind: 'refactor.rewrite', edits: [edit] };
}
