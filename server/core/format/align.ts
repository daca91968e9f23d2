import type { Cell } from './cells.ts';
import type { Row } from './rows.ts';

/**
 * Writes neighbouring lines so that what belongs in a column stands in a column.
 *
 * The flow maps of neighbours always begin in one column. Inside them, and for plain values, there are columns where
 * somebody has begun them: where any of the lines has more blanks than needed. So a text without columns stays one.
 */
export function alignRows(rows: readonly Row[]): string[] {
  const texts = rows.map(({ indent, dashes }) => ' '.repeat(indent) + dashes);
  const deepest = Math.max(0, ...rows.map(({ cells }) => cells.length));
  const widths = rows.map(() => [] as number[]);
  for (let column = 0; column < deepest; column++) {
    for (const [from, to] of blocksOf(rows, column)) {
      const block = rows.slice(from, to);
      if (!isColumn(block, column)) continue;
      const width = Math.max(...followed(block, column).map(reach));
      for (let at = from; at < to; at++) (widths[at] as number[])[column] = width;
    }
  }
  return texts.map((text, index) => {
    const { cells } = rows[index] as Row;
    const padded = cells.map((cell, at) => pad(cell.text, widths[index]?.[at] ?? reach(cell)));
    return (text + padded.join('')).trimEnd();
  });
}

/** The runs of lines that hold the same in all columns up to this one. */
function blocksOf(rows: readonly Row[], column: number): [from: number, to: number][] {
  const blocks: [number, number][] = [];
  for (const [index, row] of rows.entries()) {
    if (column >= row.cells.length) continue;
    const last = blocks.at(-1);
    const before = rows[index - 1];
    if (last && last[1] === index && before && isAlike(before, row, column)) last[1] = index + 1;
    else blocks.push([index, index + 1]);
  }
  return blocks;
}

function isAlike(a: Row, b: Row, column: number): boolean {
  for (let at = 0; at <= column; at++) if (a.cells[at]?.label !== b.cells[at]?.label) return false;
  return a.dashes === b.dashes;
}

function isColumn(block: readonly Row[], column: number): boolean {
  const cells = followed(block, column);
  if (cells.some(({ gap, least }) => gap > least)) return true;
  return cells[0]?.label === 'key' && block.every(({ flow }) => flow);
}

/** The cells of a column that have another behind them; the last of a line needs no blanks. */
function followed(block: readonly Row[], column: number): Cell[] {
  return block.flatMap(({ cells }) => (column < cells.length - 1 ? (cells[column] ?? []) : []));
}

const reach = (cell: Cell) => lengthOf(cell.text) + cell.least;
const pad = (text: string, width: number) => text + ' '.repeat(Math.max(0, width - lengthOf(text)));
/** In characters as a person counts them, near enough: a pair of surrogates is one. */
const lengthOf = (text: string) =>
  /[\ud800-\udfff]/.test(text)
    ? text.replaceAll(/\p{Surrogate}|[\u{10000}-\u{10ffff}]/gu, '.').length
    : text.length;

/** Puts comments behind their lines; those of neighbouring lines stand in one column, no nearer than typed. */
export function alignComments(rows: readonly Row[], texts: readonly string[]): string[] {
  const aligned = [...texts];
  for (let from = 0; from < rows.length; ) {
    let to = from;
    while (to < rows.length && rows[to]?.comment !== '') to++;
    const block = rows.slice(from, to);
    const longest = Math.max(...block.map((_, at) => lengthOf(texts[from + at] ?? '')));
    const gap = Math.min(...block.map(({ commentGap }) => Math.max(1, commentGap)));
    for (const [at, { comment }] of block.entries())
      aligned[from + at] = pad(texts[from + at] ?? '', longest + gap) + comment.trimEnd();
    from = Math.max(to, from + 1);
  }
  return aligned;
}
