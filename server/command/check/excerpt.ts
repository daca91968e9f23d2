import type { Place } from '../lines.ts';

/** Some lines of a text around a place, without their line ends; `first` is the number of the first of them. */
export interface Excerpt {
  readonly first: number;
  readonly lines: readonly string[];
}

const LINE_END = /\r\n|\r|\n/;
/** Longer findings show where they start. */
const MOST_LINES = 5;

/** The lines of a place, and the line before them. */
export function excerptOf(text: string, { line, endLine, endColumn }: Place): Excerpt {
  const lines = text.split(LINE_END);
  const last = endColumn === 1 && endLine > line ? endLine - 1 : endLine;
  const first = Math.max(1, line - 1);
  return { first, lines: lines.slice(first - 1, Math.min(last, line + MOST_LINES - 1)) };
}
