import { NOTHING, type Table, textOf } from './table.ts';

/**
 * Prints a table as CSV by RFC 4180: lines end with CR LF, the first names the columns, fields with commas, quotes or
 * line breaks stand in quotes. A field that a spreadsheet would take for a formula gets an apostrophe in front, since
 * names in a definition may come from anybody.
 */
export function printCsv({ columns, rows }: Table): string {
  const lines = [
    columns.map(({ title }) => title),
    ...rows.map(({ cells }) => columns.map((_, at) => textOf(cells[at]))),
  ];
  return lines.map((fields) => `${fields.map(printField).join(',')}\r\n`).join('');
}

function printField(text: string): string {
  if (text === NOTHING) return '';
  const safe = /^[=@\t\r]|^[+-](?!\d|$)/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
