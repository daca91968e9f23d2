/*
 * Tables as comma-separated values by RFC 4180: records end with CR LF, a field with a comma, a quote or a line end
 * stands in quotes, and a quote in it is doubled.
 */

/** Writes a table; the first row is the header. */
export function writeCsv(rows: readonly (readonly string[])[]): string {
  return rows.map((row) => `${row.map(writeField).join(',')}\r\n`).join('');
}

function writeField(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A table that was read, or the line (from 1) in which a quote is opened and never closed. */
export type CsvReading =
  | { readonly kind: 'table'; readonly rows: readonly CsvRow[] }
  | { readonly kind: 'unclosed'; readonly line: number };

/** A record and the line, from 1, on which it begins. */
export interface CsvRow {
  readonly line: number;
  readonly fields: readonly string[];
}

/**
 * Reads a table. Beyond the RFC it takes what programs write: a byte order mark, LF or CR alone as a line end, and
 * semicolons or tabs in place of commas where the first line has no comma. Empty lines are left out.
 */
export function readCsv(given: string): CsvReading {
  const text = given.replace(/^\ufeff/, '');
  const separator = separatorOf(text);
  const rows: CsvRow[] = [];
  let [at, line] = [0, 1];
  while (at < text.length) {
    const start = line;
    const fields: string[] = [];
    for (;;) {
      const field = text[at] === '"' ? readQuoted(text, at) : readBare(text, at, separator);
      if (!field) return { kind: 'unclosed', line };
      fields.push(field.value);
      line += field.value.split(/\r\n|\n|\r/).length - 1;
      at = field.end;
      if (text[at] !== separator) break;
      at += 1;
    }
    // What stands between a closing quote and the line end belongs to no field.
    while (at < text.length && text[at] !== '\r' && text[at] !== '\n') at += 1;
    at += text.startsWith('\r\n', at) ? 2 : 1;
    line += 1;
    if (fields.length > 1 || fields[0] !== '') rows.push({ line: start, fields });
  }
  return { kind: 'table', rows };
}

function separatorOf(text: string): string {
  const [first = ''] = text.split(/[\r\n]/, 1);
  if (first.includes(',')) return ',';
  return [';', '\t'].find((mark) => first.includes(mark)) ?? ',';
}

interface Field {
  readonly value: string;
  readonly end: number;
}

function readBare(text: string, from: number, separator: string): Field {
  let end = from;
  while (end < text.length && text[end] !== separator && text[end] !== '\r' && text[end] !== '\n') end += 1;
  return { value: text.slice(from, end), end };
}

/** Undefined where the quote is never closed. */
function readQuoted(text: string, from: number): Field | undefined {
  let value = '';
  let at = from + 1;
  for (;;) {
    const quote = text.indexOf('"', at);
    if (quote < 0) return undefined;
    value += text.slice(at, quote);
    if (text[quote + 1] !== '"') return { value, end: quote + 1 };
    value += '"';
    at = quote + 2;
  }
}
