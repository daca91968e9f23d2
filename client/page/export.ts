import { printMarkdown } from '../../server/core/summary/export/print-markdown.ts';
import { type Figure, printPage } from '../../server/core/summary/export/print-page.ts';
import type { Summary } from '../../server/core/summary/summary.ts';

/** Today as people write it in files: 2026-03-08, by the clock of this machine. */
export function today(): string {
  const now = new Date();
  const two = (number: number) => String(number).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** The page that is shown, as one file that needs nothing else. Its styles are those of this page. */
export async function exportPage(
  summary: Summary,
  drawings: ReadonlyMap<string, readonly Figure[]>,
): Promise<string> {
  const address = document.querySelector<HTMLLinkElement>('link[rel="stylesheet"]')?.href ?? '';
  const styles = await (await fetch(address)).text();
  return printPage(summary, { styles, date: today(), drawings });
}

/** The same as Markdown. */
export function exportMarkdown(summary: Summary): string {
  return printMarkdown(summary, today());
}
