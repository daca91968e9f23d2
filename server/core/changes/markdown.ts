import { escapeMarkdown } from '../features/markdown.ts';
import { type Changes, isEmpty } from './changes.ts';
import { type ChangeLine, describeChanges } from './describe.ts';

const WORDS = { added: 'new', removed: 'gone', changed: 'changed' } as const;
/** Longer lists are folded, so that a pull request can be read. */
const MOST_OPEN = 12;

/** A comparison as Markdown, for a pull request or a preview. */
export function printMarkdown(changes: Changes): string {
  const head = `# ${escapeMarkdown(changes.title || 'Machine')}: what follows from the change\n`;
  if (isEmpty(changes)) return `${head}\nNothing follows from what differs.\n`;
  const { before, after } = changes.revision;
  const revision =
    before === after
      ? ''
      : `\nRevision ${escapeMarkdown(before ?? 'without a number')} → ${escapeMarkdown(after ?? 'without a number')}\n`;
  const sections = describeChanges(changes).map(({ title, lines }) => {
    const list = lines.map(printLine).join('\n');
    if (lines.length <= MOST_OPEN) return `\n## ${title}\n\n${list}\n`;
    return `\n## ${title}\n\n<details><summary>${lines.length} lines</summary>\n\n${list}\n\n</details>\n`;
  });
  return head + revision + sections.join('');
}

function printLine({ kind, text, detail }: ChangeLine): string {
  const start = `- **${WORDS[kind]}** ${escapeMarkdown(text)}`;
  return detail === '' ? start : `${start}  \n  ${escapeMarkdown(detail)}`;
}
