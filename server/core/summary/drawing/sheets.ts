import { SIZE } from './block.ts';
import { BUNDLINGS, type Bundle, type Bundling } from './bundles.ts';
import type { Drawing, DrawnPart } from './drawing.ts';
import { SPACING, toLayoutGraph } from './elk-graph.ts';
import { filterLinks } from './filter.ts';
import type { LaidOut, LayoutGraph } from './layout.ts';
import { fitsOnSheet } from './paper.ts';
import { type Plan, planDrawing } from './plan.ts';
import { estimateWidth, fitText } from './text-width.ts';

/** A piece of a drawing that can be read on one sheet of paper, laid out. */
export interface Sheet {
  readonly plan: Plan;
  readonly laidOut: LaidOut;
}

/** A work that needs layouts: whoever does it takes graphs from it and gives their layouts back. */
export type ToLayOut<Result> = Generator<LayoutGraph, Result, LaidOut>;

/**
 * Cuts a drawing into as many sheets as it takes to be read on paper. No wire is cut: each is whole on one sheet, with
 * the parts at both ends, and a part may stand on several. What belongs together stands together, in the order of the
 * text; only what no sheet can hold is taken apart further. A link by itself is a sheet at any size.
 */
export function* cutIntoSheets(drawing: Drawing): ToLayOut<readonly Sheet[]> {
  const whole = planForPaper(drawing);
  const sheets: Sheet[] = [];
  yield* fill(sheets, whole, whole.drawing, BUNDLINGS);
  return sheets;
}

/** Lays a drawing out as one sheet; undefined when it cannot be read on one. */
export function* fitOnSheet(drawing: Drawing): ToLayOut<Sheet | undefined> {
  return yield* layOutPlan(planForPaper(drawing), fitsOnSheet);
}

/** Puts what is in a drawing onto the sheets, by bundles, and begins new sheets for what finds no room. */
function* fill(
  sheets: Sheet[],
  whole: Plan,
  drawing: Drawing,
  [bundling, ...finer]: readonly Bundling[],
): ToLayOut<void> {
  for (const bundle of bundling?.(drawing) ?? []) {
    if (yield* addTo(sheets, whole, bundle)) continue;
    const alone = yield* layOutPlan(planPart(whole, bundle), finer.length > 0 ? fitsOnSheet : () => true);
    if (alone) sheets.push(alone);
    else yield* fill(sheets, whole, planPart(whole, bundle).drawing, finer);
  }
}

/** Puts links onto that sheet with room for them which shows most of their parts already. Returns false when none has room. */
function* addTo(sheets: Sheet[], whole: Plan, bundle: Bundle): ToLayOut<boolean> {
  const parts = new Set(planPart(whole, bundle).drawing.parts.map(({ id }) => id));
  const shown = sheets.map(({ plan }) => plan.drawing.parts.filter(({ id }) => parts.has(id)).length);
  const byShown = [...sheets.entries()].sort(([a], [b]) => (shown[b] ?? 0) - (shown[a] ?? 0));
  for (const [index, { plan }] of byShown) {
    const fuller = yield* layOutPlan(planPart(whole, [...plan.drawing.links, ...bundle]), fitsOnSheet);
    if (!fuller) continue;
    sheets[index] = fuller;
    return true;
  }
  return false;
}

/** On paper blocks are narrow, so that more of them stand side by side. */
function planForPaper(drawing: Drawing): Plan {
  return planDrawing({ ...drawing, parts: drawing.parts.map(shortenKind) });
}

/** The kind of a part is cut short, and its place is not: that is where one looks for it, and the parts list tells the rest. */
function shortenKind(part: DrawnPart): DrawnPart {
  const place = part.place === undefined ? 0 : estimateWidth(` · ${part.place}`, SIZE.small);
  return { ...part, title: fitText(part.title, SIZE.small, KIND_WIDTH - place) };
}

const KIND_WIDTH = 156;

/** A part of a drawing, with columns and sides as in the whole, so that all its sheets are alike. */
function planPart(whole: Plan, bundle: Bundle): Plan {
  const links = new Set(bundle);
  const part = filterLinks(whole.drawing, (link) => links.has(link));
  return planDrawing(part, undefined, whole);
}

type Size = Pick<LaidOut, 'width' | 'height'>;

/** Lays a plan out; undefined when it does not suit. Most that is too large is known to be so without a layout. */
function* layOutPlan(plan: Plan, suits: (size: Size) => boolean): ToLayOut<Sheet | undefined> {
  if (!suits(leastSize(plan))) return undefined;
  const laidOut = yield toLayoutGraph(plan, MARGIN);
  return suits(laidOut) ? { plan, laidOut } : undefined;
}

/** Round a sheet there is white enough. */
const MARGIN = 6;

/** What a layout takes at least: columns side by side, and the parts of each one above the other. */
function leastSize({ blocks, rooms, columns }: Plan): Size {
  const sizes = new Map<number, { readonly width: number; readonly height: number }>();
  for (const [part, block] of blocks.entries()) {
    const column = columns[part] ?? 0;
    const { left, right } = rooms[part] ?? { left: 0, right: 0 };
    const before = sizes.get(column);
    sizes.set(column, {
      width: Math.max(before?.width ?? 0, left + block.width + right),
      height: (before ? before.height + SPACING.parts : 0) + block.height,
    });
  }
  const all = [...sizes.values()];
  return {
    width: all.reduce((sum, { width }) => sum + width, (all.length - 1) * SPACING.columns),
    height: Math.max(0, ...all.map(({ height }) => height)),
  };
}
