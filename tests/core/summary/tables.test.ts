import { describe, expect, it } from 'vitest';
import { printCsv } from '../../../server/core/summary/tables/print-csv.ts';
import { printMarkdownTable } from '../../../server/core/summary/tables/print-markdown.ts';
import type { Table } from '../../../server/core/summary/tables/table.ts';
import { tableView } from '../../../server/core/summary/tables/table-view.ts';
import { printHtml, withoutTools } from '../../../server/core/summary/view.ts';

const table = (...rows: readonly (readonly string[])[]): Table => ({
  title: 'T',
  columns: [{ title: 'Label' }, { title: 'Length, all', number: true }],
  rows: rows.map((cells) => ({ id: `link:${cells[0]}`, cells })),
});

describe('CSV', () => {
  // RFC 4180, section 2: rules 1, 3, 5, 6 and 7.
  it('keeps to RFC 4180', () => {
    expect(printCsv(table(['W1', '2 m'], ['a "b"', 'x,y'], ['two\nlines', '']))).toBe(
      'Label,"Length, all"\r\nW1,2 m\r\n"a ""b""","x,y"\r\n"two\nlines",\r\n',
    );
  });

  it('leaves the field empty where there is nothing to say', () => {
    expect(printCsv(table(['W1', '–']))).toBe('Label,"Length, all"\r\nW1,\r\n');
  });

  it('gives a spreadsheet no formula, and leaves numbers alone', () => {
    const lines = printCsv(table(['=1+1', '-5 V'], ['@x', '+24 V'], ['+cmd', '-a'])).split('\r\n');
    expect(lines.slice(1, 4)).toEqual(["'=1+1,-5 V", "'@x,+24 V", "'+cmd,'-a"]);
  });
});

describe('Markdown', () => {
  it('writes text as text, whatever it is', () => {
    expect(printMarkdownTable(table(['a|b', '<script>'], ['# _x_ [y](z)', 'two\nlines']))).toBe(
      '| Label | Length, all |\n| :-- | --: |\n| a\\|b | &lt;script&gt; |\n| \\# \\_x\\_ \\[y\\](z) | two lines |\n',
    );
  });
});

describe('a table on paper', () => {
  it('has no tools, and its heads are words', () => {
    const html = printHtml(withoutTools(tableView(table(['W1', '2 m']))) ?? '');
    expect(html).not.toMatch(/<button|<input|data-act/);
    expect(html).toContain('<th scope="col"><span>Label</span></th>');
  });

  it('has one stop for the keyboard, however many rows', () => {
    const html = printHtml(tableView(table(['a', '1'], ['b', '2'], ['c', '3'])));
    expect(html.match(/<tr [^>]*tabindex="0"/g)).toHaveLength(1);
    expect(html.match(/<tr [^>]*tabindex="-1"/g)).toHaveLength(2);
  });
});
