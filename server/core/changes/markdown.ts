import { escapeMarkdown } from '../features/markdown.ts';
import { later, said, say } from '../language/say.ts';
import { type Changes, isEmpty } from './changes.ts';
import { type ChangeLine, describeChanges } from './describe.ts';

const WORDS = { added: later`new`, removed: later`gone`, changed: later`changed` } as const;
/** Longer lists are folded, so that a pull request can be read. */
const MOST_OPEN = 12;

/** A comparison as Markdown, for a pull request or a preview. */
export function printMarkdown(changes: Changes): string {
  const head = `# ${say`${escapeMarkdown(changes.title || say`Machine`)}: what follows from the change`}\n`;
  if (isEmpty(changes)) return `${head}\n${say`Nothing follows from what differs.`}\n`;
  const { before, after } = changes.revision;
  const revision =
    before === after
      ? ''
      : `\n${say`Revision ${escapeMarkdown(before ?? say`without a number`)} → ${escapeMarkdown(after ?? say`without a number`)}`}\n`;
  const sections = describeChanges(changes).map(({ title, lines }) => {
    const list = lines.map(printLine).join('\n');
    if (lines.length <= MOST_OPEN) return `\n## ${title}\n\n${list}\n`;
    return `\n## ${title}\n\n<details><summary>${say`${lines.length} lines`}</summary>\n\n${list}\n\n</details>\n`;
  });
  return head + revision + sections.join('');
}

function printLine({ kind, text, detail }: ChangeLine): string {
  const start = `- **${said(WORDS[kind])}** ${escapeMarkdown(text)}`;
  return detail === '' ? start : `${start}  \n  ${escapeMarkdown(detail)}`;
}
