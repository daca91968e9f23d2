import { say } from '../core/language/say.ts';
import { nearestName } from '../core/nearest.ts';
import { printSvg } from '../core/summary/export/print-svg.ts';
import type { Summary } from '../core/summary/summary.ts';
import { printCsv } from '../core/summary/tables/print-csv.ts';
import type { ViewElement } from '../core/summary/view.ts';
import { CommandError } from './command.ts';
import { layOutViews } from './report-page.ts';

/** One table of the summary as CSV. @throws CommandError without a name, or for one that no table has */
export function printTable(summary: Summary, id: string | undefined): string {
  const tables = new Map(
    summary.items.flatMap((item) => (item.kind === 'table' ? [[item.id, item.table] as const] : [])),
  );
  return printCsv(choose(tables, id, 'table'));
}

/** One picture of the summary as SVG; without a name the whole wiring drawing. @throws CommandError for an unknown name */
export async function printPicture(summary: Summary, id = 'drawing'): Promise<string> {
  const pictures = new Map<string, ViewElement>();
  for (const [drawing, figures] of await layOutViews(summary))
    for (const [index, { id: view, svg }] of figures.entries())
      pictures.set(index === 0 ? drawing : `${drawing}:${view}`, svg);
  for (const item of summary.items) if (item.kind === 'picture') pictures.set(item.id, item.picture.svg);
  return printSvg(choose(pictures, id, 'picture'));
}

function choose<T>(pieces: ReadonlyMap<string, T>, id: string | undefined, what: string): T {
  const found = id === undefined ? undefined : pieces.get(id);
  if (found !== undefined) return found;
  const names = [...pieces.keys()];
  if (names.length === 0) throw new CommandError(say`this machine has no ${what} yet.`);
  const near = id === undefined ? undefined : nearestName(id, names);
  if (near !== undefined) throw new CommandError(say`there is no ${what} ${id}; did you mean ${near}?`);
  throw new CommandError(
    id === undefined
      ? say`name a ${what} with --item; there are ${names.join(', ')}.`
      : say`there is no ${what} ${id}; there are ${names.join(', ')}.`,
  );
}
