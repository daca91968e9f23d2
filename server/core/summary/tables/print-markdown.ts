import { type Table, textOf } from './table.ts';

/** Prints a table in the common Markdown dialect that has tables; nothing in a cell can end it. */
export function printMarkdownTable({ columns, rows }: Table): string {
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |\n`;
  return [
    line(columns.map(({ title }) => escapeMarkdown(title))),
    line(columns.map(({ number }) => (number ? '--:' : ':--'))),
    ...rows.map(({ cells }) => line(columns.map((_, at) => escapeMarkdown(textOf(cells[at]))))),
  ].join('');
}

/** Text as text: what Markdown or HTML would take for markup is escaped, and line breaks become spaces. */
export function escapeMarkdown(text: string): string {
  return text
    .replace(/[\r\n\u2028\u2029]+/g, ' ')
    .replace(/[&<>]/g, (char) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;' })[char] ?? char)
    .replace(/[\\`*_[\]|#~!]/g, '\\$&');
}
