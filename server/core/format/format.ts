import { isSameList } from '../same-list.ts';
import type { Node } from '../syntax/node.ts';
import { readTree, type Tree } from '../syntax/tree.ts';
import { alignComments, alignRows } from './align.ts';
import { indentLines } from './indent.ts';
import { type Line, readLines } from './lines.ts';
import { printLink } from './link.ts';
import { type Row, readRow } from './rows.ts';

/** A line with how it is to be written. */
export interface Formatted {
  readonly from: number;
  readonly before: string;
  readonly after: string;
}

/** What keeps a whole text from being formatted: a line's place in it cannot be told. */
const IN_DOUBT = new Set([
  'yaml/tab-indentation',
  'yaml/conflict-markers',
  'yaml/too-deep',
  'yaml/duplicate-key',
  'shape/too-large',
]);

/** A stretch of the text. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/**
 * Lays a text out anew, or the lines of it that a stretch touches: only blanks change. Lines stay lines, comments and
 * blank lines stay where they are, and what cannot be read stays as it is. Should the text mean something else
 * afterwards, as it can when a part of it is moved without the rest, nothing is changed at all.
 */
export function formatLines(tree: Tree, within: Stretch = { from: 0, to: tree.text.length }): Formatted[] {
  if (tree.problems.some(({ code }) => IN_DOUBT.has(code))) return [];
  const lines = readLines(tree);
  const isWanted = ({ from, text }: Line) => from <= within.to && from + text.length >= within.from;
  const first = lines.findIndex(isWanted);
  const last = lines.findLastIndex(isWanted);
  if (first < 0) return [];
  const indents = indentLines(lines);
  const texts = writeLines(lines, indents, paragraphAround(lines, first, last));
  const formatted = lines.slice(first, last + 1).map(({ from, text }, at) => ({
    from,
    before: text,
    after: texts[first + at] ?? text,
  }));
  return keepsMeaning(tree, formatted) ? formatted : [];
}

/** Lines up to the next blank ones: what stands in a table with a line is among them. */
function paragraphAround(lines: readonly Line[], first: number, last: number): Stretch {
  let [from, to] = [first, last];
  while (from > 0 && lines[from - 1]?.kind !== 'blank') from--;
  while (to < lines.length - 1 && lines[to + 1]?.kind !== 'blank') to++;
  return { from, to };
}

function writeLines(lines: readonly Line[], indents: readonly number[], { from, to }: Stretch): string[] {
  const isIn = (index: number) => from <= index && index <= to;
  const texts = lines.map((line, index) => (isIn(index) ? writeAlone(line, indents[index] ?? 0) : line.text));
  const rows = readRows(lines, indents, isIn);
  for (const run of runsOf(lines, rows)) {
    const whole = alignRows(run.map(({ row }) => row));
    for (const [at, { index }] of run.entries()) texts[index] = whole[at] ?? '';
  }
  for (const run of neighboursOf(rows)) {
    const withComments = alignComments(
      run.map(({ row }) => row),
      run.map(({ index }) => texts[index] ?? ''),
    );
    for (const [at, { index }] of run.entries()) texts[index] = withComments[at] ?? '';
  }
  return texts;
}

function writeAlone({ kind, text, indent }: Line, to: number): string {
  if (kind === 'frozen') return text;
  if (kind === 'inside') return ' '.repeat(text.trim() === '' ? indent : to) + text.slice(indent);
  return kind === 'blank' ? '' : ' '.repeat(to) + text.trim();
}

function readRows(
  lines: readonly Line[],
  indents: readonly number[],
  isIn: (index: number) => boolean,
): (Row | undefined)[] {
  let inWiring = false;
  return lines.map((line, index) => {
    if (line.kind !== 'entry') return undefined;
    if (indents[index] === 0) inWiring = /^wiring\s*:/.test(line.text.trimStart());
    return isIn(index) ? readRow(line, indents[index] ?? 0, inWiring) : undefined;
  });
}

interface Placed {
  readonly index: number;
  readonly row: Row;
}

/** Lines that are lined up with one another: equally deep and whole, with nothing but comments between them. */
function runsOf(lines: readonly Line[], rows: readonly (Row | undefined)[]): Placed[][] {
  const runs: Placed[][] = [];
  let open: Placed[] | undefined;
  for (const [index, row] of rows.entries()) {
    if (!row) {
      if (lines[index]?.kind !== 'comment') open = undefined;
      continue;
    }
    if (open?.[0] && row.whole && depthOf(open[0].row) === depthOf(row)) open.push({ index, row });
    else {
      open = [{ index, row }];
      runs.push(open);
      if (!row.whole) open = undefined;
    }
  }
  return runs;
}

const depthOf = ({ indent, dashes }: Row) => indent + dashes.length;

/** Runs of lines that follow one another directly. */
function neighboursOf(rows: readonly (Row | undefined)[]): Placed[][] {
  const runs: Placed[][] = [];
  for (const [index, row] of rows.entries()) {
    if (!row) continue;
    const last = runs.at(-1);
    if (last && last.at(-1)?.index === index - 1) last.push({ index, row });
    else runs.push([{ index, row }]);
  }
  return runs;
}

/** Whether a text that was laid out anew says what the tree says, and has the same problems. */
export function readsTheSame(tree: Tree, text: string): boolean {
  const { root, problems } = readTree(text, tree);
  // What is lost to a syntax error may leave the rest as it was.
  return isSameList(codesOf(problems), codesOf(tree.problems)) && isSame(tree.root, root);
}

const codesOf = (problems: Tree['problems']): string[] => problems.map(({ code }) => code).sort();

function keepsMeaning(tree: Tree, lines: readonly Formatted[]): boolean {
  let text = '';
  let end = 0;
  for (const { from, before, after } of lines) {
    text += tree.text.slice(end, from) + after;
    end = from + before.length;
  }
  return readsTheSame(tree, text + tree.text.slice(end));
}

/** Two trees that say the same. The blanks in a link are the formatter's own affair. */
function isSame(a: Node | undefined, b: Node | undefined): boolean {
  if (a === b) return true;
  if (a?.kind === 'scalar' && b?.kind === 'scalar')
    return (
      a.style === b.style &&
      (a.text === b.text || (a.text.includes('->') && printLink(a.text) === printLink(b.text)))
    );
  if (a?.kind === 'list' && b?.kind === 'list')
    return (
      a.flow === b.flow &&
      a.items.length === b.items.length &&
      a.items.every((item, at) => isSame(item, b.items[at]))
    );
  if (a?.kind !== 'map' || b?.kind !== 'map') return false;
  return (
    a.flow === b.flow &&
    a.pairs.length === b.pairs.length &&
    a.pairs.every(({ key, value }, at) => isSame(key, b.pairs[at]?.key) && isSame(value, b.pairs[at]?.value))
  );
}
