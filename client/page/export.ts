import { printMarkdown } from '../../server/core/summary/export/print-markdown.ts';
import { type Figure, printPage } from '../../server/core/summary/export/print-page.ts';
import type { Summary } from '../../server/core/summary/summary.ts';

/** Today as people write it in files: 2026-03-08, by the clock of this machine. */
function today(): string {
  const now = new Date();
  const two = (number: number) => String(number).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** The page that is shown as a text to be given away: one file that needs nothing else, with the styles of this page. */
export async function exportSummary(
  format: 'html' | 'md',
  summary: Summary,
  layOut: () => Promise<ReadonlyMap<string, readonly Figure[]>>,
): Promise<string> {
  if (format === 'md') return printMarkdown(summary, today());
  const address = document.querySelector<HTMLLinkElement>('link[rel="stylesheet"]')?.href ?? '';
  const [styles, drawings] = await Promise.all([fetch(address).then((sheet) => sheet.text()), layOut()]);
  return printPage(summary, { styles, date: today(), drawings });
}
