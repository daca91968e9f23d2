import { splitComment } from '../format/scan.ts';
import { startOfLine } from '../syntax/lines.ts';
import { type Cursor, readCursor } from './cursor.ts';

/**
 * A cursor with what it needs for putting something there: a key is written where its neighbours stand, even where the
 * person is a blank off, and nowhere where it would take the lines below it for its own.
 */
export interface Spot {
  readonly cursor: Cursor;
  /** What is replaced begins here, if not at the cursor's own start, with so many blanks. */
  readonly indent?: { readonly from: number; readonly blanks: number };
}

/** Where something could be written; undefined inside a comment, and where nothing fits. */
export function readSpot(text: string, offset: number): Spot | undefined {
  const from = startOfLine(text, offset);
  const before = text.slice(from, offset);
  const after = /^[^\r\n]*/.exec(text.slice(offset))?.[0] ?? '';
  if (splitComment(before).comment !== '') return undefined;
  const cursor = readCursor(text, offset);
  // In the blanks before something else there is no line to be begun.
  if (!cursor.inFlow && before.trim() === '' && /^\s+[^\s#]/.test(after)) return undefined;
  if (cursor.wants === 'key' && /^[{[]/.test(after)) return undefined;
  // Behind a closed bracket or quote, and before the next thing of a list, something would be missing between the two.
  if (/[\]}"']$/.test(before)) return undefined;
  if (
    cursor.inFlow &&
    cursor.wants === 'value' &&
    cursor.typed.trim() === '' &&
    /^[ \t]*[^\s,}\]#]/.test(after)
  )
    return undefined;
  const typed = /^ *([\w-]*)$/.exec(before);
  if (cursor.inFlow || cursor.wants !== 'key' || !typed || !/^[\w-]*\s*(?:$|:)/.test(after))
    return { cursor };
  const indent = before.length - (typed[1] ?? '').length;
  const above = levelsAbove(text, from);
  const settled = nearestLevel(above, indent);
  // Below a key that is written already its own lines follow; below a new one they would be taken from their owner.
  if (!after.includes(':') && indentBelow(text, offset + after.length) > settled) return undefined;
  if (settled === indent) return { cursor };
  const blanks = ' '.repeat(settled);
  const moved = text.slice(0, from) + blanks + text.slice(from + indent);
  const there = readCursor(moved, offset + settled - indent);
  return { cursor: { ...there, from }, indent: { from, blanks: settled } };
}

interface Levels {
  /** Indentations at which a line may stand, outermost first. */
  readonly open: readonly number[];
  /** True where the line above opens something, so that a deeper line may follow. */
  readonly isOpening: boolean;
}

function levelsAbove(text: string, lineFrom: number): Levels {
  const open: number[] = [];
  let isOpening = false;
  let level = Number.POSITIVE_INFINITY;
  for (let end = lineFrom - 1; end >= 0 && level > 0; ) {
    const from = startOfLine(text, end);
    const line = text.slice(from, end).replace('\uFEFF', '').trimEnd();
    end = from - 1;
    const indent = line.search(/[^ ]/);
    if (indent < 0 || line[indent] === '#') continue;
    const dash = /^ *(?:- +)+/.exec(line)?.[0].length;
    if (open.length === 0) isOpening = /:$/.test(splitComment(line).code.trimEnd());
    for (const column of dash === undefined ? [indent] : [dash, indent]) {
      if (column >= level) continue;
      open.unshift(column);
      level = column;
    }
  }
  return { open: open.length > 0 ? open : [0], isOpening };
}

function nearestLevel({ open, isOpening }: Levels, indent: number): number {
  const deepest = open.at(-1) ?? 0;
  if (isOpening && indent > deepest) return deepest + 2;
  return open.findLast((level) => level <= indent) ?? open[0] ?? 0;
}

/** How deep the next line stands that says something; -1 at the end. */
function indentBelow(text: string, offset: number): number {
  const next = /^( *)[^\s#]/m.exec(text.slice(offset).replace(/^[^\n]*/, ''));
  return next ? (next[1] ?? '').length : -1;
}
