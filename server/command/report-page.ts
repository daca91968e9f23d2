import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { makeFigures, makeViews } from '../core/summary/export/figures.ts';
import { type Figure, type PageSetup, printPage } from '../core/summary/export/print-page.ts';
import type { Summary } from '../core/summary/summary.ts';
import { layOutAll } from './layout.ts';
import type { Loaded } from './load.ts';

/** What of the summary a page shows, and its date. */
type Shown = Pick<PageSetup, 'sections' | 'leaveOut' | 'date'>;

/** The wiring summary as one page that needs nothing else: no script, no network, its styles inside. */
export async function printReportPage({ fettle, analysis }: Loaded, shown: Shown = {}): Promise<string> {
  const summary = fettle.summary(analysis);
  const styles = await readFile(join(__dirname, 'page.css'), 'utf8');
  // Laying out takes longer than all the rest.
  const hasDrawing = shown.sections?.includes('drawing') ?? true;
  const drawings: Figures = hasDrawing ? await layOutDrawings(summary, makeFigures) : new Map();
  return printPage(summary, { ...shown, styles, drawings });
}

/** The drawings of a summary, each view whole, by the ids of their items. */
export const layOutViews = (summary: Summary): Promise<Figures> => layOutDrawings(summary, makeViews);

type Figures = ReadonlyMap<string, readonly Figure[]>;

async function layOutDrawings(summary: Summary, make: typeof makeFigures): Promise<Figures> {
  const drawings = new Map<string, readonly Figure[]>();
  for (const item of summary.items)
    if (item.kind === 'drawing') drawings.set(item.id, await layOutAll(make(item.drawing)));
  return drawings;
}
