import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { drawWiring } from '../core/summary/drawing/drawing-svg.ts';
import { toLayoutGraph } from '../core/summary/drawing/elk-graph.ts';
import { listViews } from '../core/summary/drawing/filter.ts';
import { planDrawing } from '../core/summary/drawing/plan.ts';
import { settleColumns } from '../core/summary/drawing/settle.ts';
import { type Figure, type PageSetup, printPage } from '../core/summary/export/print-page.ts';
import type { Summary } from '../core/summary/summary.ts';
import { layOut } from './layout.ts';
import type { Loaded } from './load.ts';

/** What of the summary a page shows, and its date. */
type Shown = Pick<PageSetup, 'sections' | 'leaveOut' | 'date'>;

/** The wiring summary as one page that needs nothing else: no script, no network, its styles inside. */
export async function printReportPage({ fettle, analysis }: Loaded, shown: Shown = {}): Promise<string> {
  const summary = fettle.summary(analysis);
  const styles = await readFile(join(__dirname, 'page.css'), 'utf8');
  return printPage(summary, { ...shown, styles, drawings: await layOutDrawings(summary) });
}

/** The drawings of a summary, laid out, by the ids of their items. */
export async function layOutDrawings(summary: Summary): Promise<ReadonlyMap<string, readonly Figure[]>> {
  const drawings = new Map<string, readonly Figure[]>();
  for (const item of summary.items) {
    if (item.kind !== 'drawing') continue;
    const figures: Figure[] = [];
    for (const { id, title, drawing } of listViews(item.drawing)) {
      const plan = planDrawing(drawing);
      figures.push({
        id,
        title,
        svg: drawWiring(plan, settleColumns(plan, await layOut(toLayoutGraph(plan)))),
      });
    }
    drawings.set(item.id, figures);
  }
  return drawings;
}
