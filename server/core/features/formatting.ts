import { type Formatted, formatLines, readsTheSame } from '../format/format.ts';
import { startOfLine } from '../syntax/lines.ts';
import type { Tree } from '../syntax/tree.ts';

/** Formatting needs no more than the tree. */
interface Parsed {
  readonly tree: Tree;
}

/** A replacement of a stretch of the text, in offsets. */
export interface TextChange {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** Formats a whole text: the blanks that have to change, and nothing else. A last line gets its line end. */
export function formatText({ tree }: Parsed): TextChange[] {
  const { text } = tree;
  const lines = formatLines(tree);
  const changes = lines.flatMap(changesOf);
  const last = lines.at(-1);
  const end = last && last.from + last.before.length;
  const ending = text.includes('\r\n') ? '\r\n' : '\n';
  // Even a line end can mean something behind what is not finished.
  if (last && end === text.length && last.after !== '' && readsTheSame(tree, text + ending))
    changes.push({ from: end, to: end, text: ending });
  return changes;
}

/** Formats the lines that a stretch touches, as they would stand if everything were formatted. */
export function formatRange({ tree }: Parsed, from: number, to: number): TextChange[] {
  return formatLines(tree, { from, to }).flatMap(changesOf);
}

/**
 * Formats what was just finished by typing: the line that a new line ends, with those that stand in one table with it.
 * The line of the cursor is left alone, since somebody is writing in it.
 */
export function formatOnType({ tree }: Parsed, offset: number): TextChange[] {
  const { text } = tree;
  const start = startOfLine(text, offset);
  const isNewLine = text.slice(start, offset).trim() === '';
  const finished = isNewLine ? startOfLine(text, Math.max(0, start - 1)) : start;
  const isText = (at: number) => /^[^\S\r\n]*\S/.test(text.slice(at, at + 400));
  let [from, to] = [finished, finished];
  while (from > 0 && isText(startOfLine(text, from - 1))) from = startOfLine(text, from - 1);
  for (let next = text.indexOf('\n', to) + 1; next > 0 && isText(next); next = text.indexOf('\n', next) + 1) {
    if (isNewLine && next === start) break;
    to = next;
  }
  return formatLines(tree, { from, to }).flatMap(changesOf);
}

/** The stretches of blanks in which a line differs; everything else in it is the same. */
function changesOf({ from, before, after }: Formatted): TextChange[] {
  const changes: TextChange[] = [];
  let [old, now] = [0, 0];
  while (old < before.length || now < after.length) {
    const [was, is] = [blanksAt(before, old), blanksAt(after, now)];
    if (was !== is) changes.push({ from: from + old, to: from + old + was.length, text: is });
    old += was.length;
    now += is.length;
    if (old >= before.length) break;
    old++;
    now++;
  }
  return changes;
}

function blanksAt(text: string, at: number): string {
  let end = at;
  while (end < text.length && /\s/.test(text[end] as string)) end++;
  return text.slice(at, end);
}
