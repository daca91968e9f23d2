import type { LaidOut } from './layout.ts';

/**
 * A4 that lies across, in mm: what a sheet of a drawing may take of a page, and what stands round it there. The style
 * sheet of the page (client/page/print.css) prints by the same measures.
 */
const PAGE = { width: 281, height: 186, heading: 14 };
const SHEET = { width: PAGE.width, height: 166, title: 13 };

/** The smallest letters of a drawing, and the least size in points at which they are read at arm's length. */
const LETTERS = { units: 8.5, points: 6.5 };

const MM_PER_POINT = 25.4 / 72;

/** The least size of a unit of a drawing in print, and the size up to which a picture grows, in mm. */
const LEAST_UNIT = (LETTERS.points / LETTERS.units) * MM_PER_POINT;
const MOST_UNIT = 0.3;

type Size = Pick<LaidOut, 'width' | 'height'>;

/** True for a drawing whose letters are large enough on one sheet. */
export const fitsOnSheet = ({ width = 0, height = 0 }: Size): boolean =>
  Math.max(width / SHEET.width, height / SHEET.height) <= 1 / LEAST_UNIT;

/** How much of the height of a page a sheet takes, in mm. */
function heightOf({ width = 0, height = 0 }: Size): number {
  return SHEET.title + Math.min(MOST_UNIT, SHEET.width / width, SHEET.height / height) * height;
}

/**
 * Puts sheets into the order in which they fill pages: each goes onto the first page that has room for it, so that what
 * is flat shares one. Below the heading of the section the first page has less.
 */
export function orderByPages<Sheet extends { readonly laidOut: Size }>(
  sheets: readonly Sheet[],
): readonly Sheet[] {
  const pages: { readonly sheets: Sheet[]; left: number }[] = [];
  for (const sheet of sheets) {
    const height = heightOf(sheet.laidOut);
    let page = pages.find(({ left }) => left >= height);
    if (!page) {
      page = { sheets: [], left: PAGE.height - (pages.length === 0 ? PAGE.heading : 0) };
      pages.push(page);
    }
    page.sheets.push(sheet);
    page.left -= height;
  }
  return pages.flatMap((page) => page.sheets);
}
