import { say } from '../../language/say.ts';
import type { Drawing } from '../drawing/drawing.ts';
import { drawWiring } from '../drawing/drawing-svg.ts';
import { toLayoutGraph } from '../drawing/elk-graph.ts';
import { listViews } from '../drawing/filter.ts';
import { orderByPages } from '../drawing/paper.ts';
import { planDrawing } from '../drawing/plan.ts';
import { settleColumns } from '../drawing/settle.ts';
import { cutIntoSheets, fitOnSheet, type Sheet, type ToLayOut } from '../drawing/sheets.ts';
import type { Figure } from './print-page.ts';

/** All that a page shows of a drawing: its views whole on the screen, where one can scroll, and cut into sheets on paper. */
export function* makeFigures(drawing: Drawing): ToLayOut<readonly Figure[]> {
  return [...(yield* makeViews(drawing)), ...(yield* makeSheets(drawing))];
}

/** The views of a drawing, each whole. */
export function* makeViews(drawing: Drawing): ToLayOut<readonly Figure[]> {
  const figures: Figure[] = [];
  for (const { id, title, drawing: view } of listViews(drawing)) {
    const plan = planDrawing(view);
    const laidOut = settleColumns(plan, yield toLayoutGraph(plan));
    figures.push({ id, title, svg: drawWiring(plan, laidOut), medium: 'screen' });
  }
  return figures;
}

/** A sheet with the title of the view that it is a piece of. */
interface TitledSheet extends Sheet {
  readonly view: string;
}

/**
 * The sheets of a drawing, numbered. Where the groups show everything already, the whole is printed only when it can be
 * read on one sheet.
 */
function* makeSheets(drawing: Drawing): ToLayOut<readonly Figure[]> {
  const [whole, ...groups] = listViews(drawing);
  const sheets: TitledSheet[] = [];
  for (const { title, drawing: view } of groups.length > 0 ? groups : whole ? [whole] : []) {
    const pieces = yield* cutIntoSheets(view);
    sheets.push(...pieces.map((piece) => ({ ...piece, view: title })));
  }
  const all = whole && groups.length > 0 ? yield* fitOnSheet(whole.drawing) : undefined;
  const overview = whole && all ? [{ ...drawSheet(all), id: 'sheet', title: whole.title }] : [];
  return [...overview, ...numberSheets(orderByPages(sheets))];
}

/** Numbers sheets, and notes on each where else its parts are wired, as it is done beside the symbols of circuit diagrams. */
function numberSheets(sheets: readonly TitledSheet[]): readonly Figure[] {
  const numbers = new Map<string, number[]>();
  for (const [index, { plan }] of sheets.entries())
    for (const { id } of plan.drawing.parts) numbers.set(id, [...(numbers.get(id) ?? []), index + 1]);
  return sheets.map((sheet, index) => {
    const number = index + 1;
    const goesOn = sheet.plan.drawing.parts.flatMap(({ id, name }) => {
      const others = (numbers.get(id) ?? []).filter((other) => other !== number);
      return others.length > 0 ? [`${name} ${others.join(', ')}`] : [];
    });
    return {
      ...drawSheet(sheet),
      id: `sheet-${number}`,
      title: sheets.length > 1 ? say`Sheet ${number}: ${titlePiece(sheet, sheets)}` : sheet.view,
      ...(goesOn.length > 0 && { note: say`More wires of these parts, by sheet: ${goesOn.join('; ')}` }),
    };
  });
}

/** Which piece of its view a sheet is, where there are several. */
function titlePiece(sheet: TitledSheet, sheets: readonly TitledSheet[]): string {
  const pieces = sheets.filter(({ view }) => view === sheet.view);
  return pieces.length > 1
    ? say`${sheet.view}, ${pieces.indexOf(sheet) + 1} of ${pieces.length}`
    : sheet.view;
}

const drawSheet = ({ plan, laidOut }: Sheet): Pick<Figure, 'svg' | 'medium'> => ({
  svg: drawWiring(plan, laidOut),
  medium: 'paper',
});
