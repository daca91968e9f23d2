/** A stretch of a text as people count: lines and columns from 1, columns in UTF-16 units. */
export interface Place {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

/** The lines of a text. */
export interface Lines {
  readonly placeOf: (range: { readonly from: number; readonly to: number }) => Place;
}

/** Counts the lines of a text; a lone carriage return ends a line too, as it does in editors. */
export function createLines(text: string): Lines {
  const starts = [0];
  for (const { index, 0: end } of text.matchAll(/\r\n|\r|\n/g)) starts.push(index + end.length);
  return {
    placeOf: ({ from, to }) => {
      const [start, end] = [positionAt(starts, from), positionAt(starts, to)];
      return { line: start.line, column: start.column, endLine: end.line, endColumn: end.column };
    },
  };
}

function positionAt(starts: readonly number[], offset: number): { line: number; column: number } {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((starts[middle] ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  return { line: low + 1, column: offset - (starts[low] ?? 0) + 1 };
}
