import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { printDocument } from '../core/summary/export/print-document.ts';

/**
 * A page of its own with the styles that ship beside the command line.
 * @param body what stands in it, as HTML that was printed from views
 */
export async function printPlainPage(title: string, body: string): Promise<string> {
  const styles = await readFile(join(__dirname, 'page.css'), 'utf8');
  return printDocument(title, styles, `<main>\n${body}\n</main>`);
}
