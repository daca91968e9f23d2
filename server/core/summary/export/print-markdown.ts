import { say } from '../../language/say.ts';
import type { Drawing } from '../drawing/drawing.ts';
import type { Picture } from '../pictures/picture.ts';
import { SECTIONS, type Summary, type SummaryItem, sectionTitle } from '../summary.ts';
import { escapeMarkdown, printMarkdownTable } from '../tables/print-markdown.ts';
import type { Table } from '../tables/table.ts';
import { printViewMarkdown } from './view-markdown.ts';

/**
 * Prints the summary as Markdown: tables as tables, pictures by their words, the drawing as the list of its links.
 * @param date as it is to be read; the core knows no clock
 */
export function printMarkdown(summary: Summary, date?: string): string {
  const facts = [summary.revision === undefined ? '' : say`Revision ${summary.revision}`, date ?? ''].filter(
    (fact) => fact !== '',
  );
  const parts = [`# ${escapeMarkdown(summary.title || say`Machine`)}\n`];
  if (facts.length > 0) parts.push(`${facts.map(escapeMarkdown).join(', ')}\n`);
  for (const section of SECTIONS) {
    const items = summary.items.filter((item) => item.section === section && item.id !== 'title');
    if (items.length > 0) parts.push(`## ${sectionTitle(section)}\n`, ...items.map(printItem));
  }
  return `${parts
    .join('\n')
    .replace(/\n{3,}/g, '\n\n')
    .trimEnd()}\n`;
}

function printItem(item: SummaryItem): string {
  switch (item.kind) {
    case 'table':
      return printTable(item.table);
    case 'picture':
      return printPicture(item.picture);
    case 'drawing':
      return printLinks(item.drawing);
    case 'view':
      return printViewMarkdown(item.view);
  }
}

function printTable(table: Table): string {
  const { title, about, note, rows, empty = say`Nothing yet.` } = table;
  const body = rows.length > 0 ? printMarkdownTable(table) : `${escapeMarkdown(empty)}\n`;
  const lines = [
    `### ${escapeMarkdown(title)}\n`,
    about === undefined ? '' : `${escapeMarkdown(about)}\n`,
    body,
  ];
  return [...lines, note === undefined ? '' : `${escapeMarkdown(note)}\n`]
    .filter((line) => line !== '')
    .join('\n');
}

function printPicture({ title, says }: Picture): string {
  return `### ${escapeMarkdown(title)}\n\n${says.map((sentence) => `- ${escapeMarkdown(sentence)}\n`).join('')}`;
}

function printLinks({ links }: Drawing): string {
  const end = (id: string) => escapeMarkdown(id.slice(id.indexOf(':') + 1));
  const line = ({ from, to, label, colour, cable }: Drawing['links'][number]) => {
    const words = [label, colour, cable === undefined ? undefined : say`cable ${cable}`].filter(
      (word) => word !== undefined,
    );
    return `${say`- ${end(from)} to ${end(to)}`}${words.length > 0 ? `: ${escapeMarkdown(words.join(', '))}` : ''}\n`;
  };
  return links.map(line).join('');
}
