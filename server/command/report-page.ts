import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Drawing } from '../core/summary/drawing/drawing.ts';
import { drawWiring } from '../core/summary/drawing/drawing-svg.ts';
import { planDrawing, toLayoutGraph } from '../core/summary/drawing/elk-graph.ts';
import { SECTION_TITLES, SECTIONS, type Section, type SummaryItem } from '../core/summary/summary.ts';
import { escapeHtml, printHtml } from '../core/summary/view.ts';
import { layOut } from './layout.ts';
import type { Loaded } from './load.ts';

/** What of the summary a page shows. */
interface Shown {
  readonly sections?: readonly Section[];
  readonly leaveOut?: (id: string) => boolean;
}

/** The wiring summary as one page that needs nothing else: no script, no network, its styles inside. */
export async function printReportPage(
  { fettle, analysis }: Loaded,
  { sections: shown = SECTIONS, leaveOut = () => false }: Shown = {},
): Promise<string> {
  const summary = fettle.summary(analysis);
  const styles = await readFile(join(__dirname, 'page.css'), 'utf8');
  const sections = await Promise.all(
    shown.map((section) =>
      printSection(
        section,
        summary.items.filter((item) => item.section === section && !leaveOut(item.id)),
      ),
    ),
  );
  const title = escapeHtml(summary.title || 'Machine');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${title}: wiring summary</title>
<style>${styles}</style>
</head>
<body class="report">
<main>
${sections.join('\n')}
</main>
</body>
</html>
`;
}

async function printSection(section: Section, items: readonly SummaryItem[]): Promise<string> {
  const pieces = await Promise.all(items.map(printItem));
  const title = SECTION_TITLES[section];
  // The same structure as in the page beside the text, so that one style sheet serves both.
  return `<section class="summary-section" data-section="${section}" aria-label="${title}">
<h2>${title}</h2>
<div class="items">
${pieces.join('\n')}
</div>
</section>`;
}

async function printItem(item: SummaryItem): Promise<string> {
  if (item.kind === 'view') return printHtml(item.view);
  return `<figure class="drawing">${await printDrawing(item.drawing)}</figure>`;
}

async function printDrawing(drawing: Drawing): Promise<string> {
  const plan = planDrawing(drawing);
  return printHtml(drawWiring(plan, await layOut(toLayoutGraph(plan))));
}
