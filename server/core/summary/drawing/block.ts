import type { DrawnPart } from './drawing.ts';
import type { Side } from './sides.ts';
import { estimateWidth } from './text-width.ts';

/** All measures of the drawing, in its own units; one unit is one pixel at a scale of 1. */
export const SIZE = {
  name: 13,
  small: 10,
  terminal: 11,
  caption: 9,
  head: 40,
  row: 18,
  captionRow: 15,
  margin: 10,
  symbol: 30,
  foot: 8,
  between: 26,
  least: 96,
  most: 240,
} as const;

/** A terminal's row in its block: the middle of its text, and the rims at which wires may join. */
export interface Row {
  readonly terminal: number;
  readonly side: Side;
  readonly y: number;
}

/** The caption above a group of terminals. */
export interface Caption {
  readonly text: string;
  readonly side: Side;
  readonly y: number;
}

/** A part's block, measured: everything is relative to its top left corner. */
export interface Block {
  readonly width: number;
  readonly height: number;
  readonly rows: readonly Row[];
  readonly captions: readonly Caption[];
  /** True for a part that is folded up: all its wires join at its head. */
  readonly isFolded: boolean;
}

/** The row of a terminal in a block. */
export function rowOf({ rows }: Block, terminal: number): Row | undefined {
  const there = rows[terminal];
  return there?.terminal === terminal ? there : rows.find((row) => row.terminal === terminal);
}

/** Widths go by steps, so that a letter more or less moves nothing else. */
const WIDTH_STEP = 16;

/** A part without its terminals. */
export function foldBlock(part: DrawnPart): Block {
  return { width: measureWidth(part, [], []), height: SIZE.head, rows: [], captions: [], isFolded: true };
}

/**
 * Measures a part's block: head with name and kind, below it the terminals in printed order down each side. Groups get
 * a caption where a part has several. Text is measured by estimate, since neither report nor tests have fonts.
 */
export function measureBlock(part: DrawnPart, sides: readonly Side[]): Block {
  const grouped = new Set(part.terminals.map(({ group }) => group)).size > 1;
  const rows: Row[] = [];
  const captions: Caption[] = [];
  const bottom = { left: SIZE.head, right: SIZE.head, both: SIZE.head };
  const last: Partial<Record<Side, string>> = {};
  part.terminals.forEach(({ group, wired }, terminal) => {
    // What is not wired on a bar says nothing about it.
    if (part.rail && !wired) return;
    const side = sides[terminal] ?? 'left';
    if (grouped && group !== '' && last[side] !== group) {
      captions.push({ text: group, side, y: bottom[side] + SIZE.captionRow / 2 });
      bottom[side] += SIZE.captionRow;
    }
    last[side] = group;
    rows.push({ terminal, side, y: bottom[side] + SIZE.row / 2 });
    bottom[side] += SIZE.row;
  });
  const height = Math.max(bottom.left, bottom.right, bottom.both) + (rows.length > 0 ? SIZE.foot : 0);
  return { width: measureWidth(part, rows, captions), height, rows, captions, isFolded: false };
}

function measureWidth(part: DrawnPart, rows: readonly Row[], captions: readonly Caption[]): number {
  const widest = (side: Side): number =>
    Math.max(
      0,
      ...rows
        .filter((row) => row.side === side)
        .map((row) => estimateWidth(part.terminals[row.terminal]?.name ?? '', SIZE.terminal)),
      ...captions.filter((row) => row.side === side).map(({ text }) => estimateWidth(text, SIZE.caption)),
    );
  const [left, right, both] = [widest('left'), widest('right'), widest('both')];
  const body = Math.max(left + right + (left > 0 && right > 0 ? SIZE.between : 0), both);
  const head = Math.max(
    estimateWidth(part.name, SIZE.name) * 1.08 + SIZE.symbol,
    estimateWidth(subtitleOf(part), SIZE.small),
  );
  const wanted = Math.max(body, Math.min(head, SIZE.most)) + 2 * SIZE.margin;
  return Math.ceil(Math.max(SIZE.least, wanted) / WIDTH_STEP) * WIDTH_STEP;
}

/** The line under a part's name: what it is, and where it stands. */
export function subtitleOf({ title, place }: DrawnPart): string {
  return [title, place].filter((text) => text !== undefined && text !== '').join(' · ');
}
