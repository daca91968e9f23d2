import { startOfLine } from '../syntax/lines.ts';

/**
 * What a cursor is asking for, read from the text alone: while a line is half typed the tree has gaps exactly where
 * completion is wanted, and indentation and brackets still tell the way.
 */
export interface Cursor {
  /** The keys that enclose the cursor; list items are `-`. */
  readonly path: readonly string[];
  /** A key is wanted, or the value of the last key of the path. */
  readonly wants: 'key' | 'value';
  /** What has been typed of it so far, and where that starts. */
  readonly typed: string;
  readonly from: number;
  /** Keys that the same map already has. */
  readonly siblings: readonly string[];
  readonly inFlow: boolean;
}

interface Line {
  readonly indent: number;
  readonly text: string;
  readonly from: number;
}

/** Reads the cursor's context. A list item counts as standing two columns deeper than its dash. */
export function readCursor(text: string, offset: number): Cursor {
  const lineFrom = startOfLine(text, offset);
  const before = text.slice(lineFrom, offset);
  const entry = flowStart(text, lineFrom, offset);
  if (entry) return inFlow(text, entry, offset);
  const dashes = /^\s*(?:-\s+)*/.exec(before)?.[0] ?? '';
  const indent = before.trim() === '' ? before.length : dashes.length;
  const { path, siblings } = enclosing(text, lineFrom, indent);
  const ownDash = dashes.includes('-') ? ['-'] : [];
  const base =
    ownDash.length > 0 ? [...enclosing(text, lineFrom, dashes.indexOf('-'), true).path, ...ownDash] : path;
  const body = before.slice(dashes.length);
  const key = /^([^\s:#][^:#]*?)\s*:\s+/.exec(body) ?? /^([^\s:#][^:#]*?)\s*:$/.exec(body);
  if (key) {
    const typed = body.slice(key[0].length);
    return {
      path: [...base, key[1] ?? ''],
      wants: 'value',
      typed,
      from: offset - typed.length,
      siblings,
      inFlow: false,
    };
  }
  const wants = ownDash.length > 0 && body !== '' && /[.\s>]/.test(body) ? 'value' : 'key';
  return { path: base, wants, typed: body, from: offset - body.length, siblings, inFlow: false };
}

/** The enclosing keys of a line, by the lines above it that stand further out, and the keys beside it. */
function enclosing(
  text: string,
  lineFrom: number,
  indent: number,
  isDash = false,
): { path: string[]; siblings: string[] } {
  const path: string[] = [];
  const siblings: string[] = [];
  let level = isDash ? indent + 0.5 : indent; // a list may stand as far out as its key
  for (const line of linesAbove(text, lineFrom)) {
    if (level === 0 && line.indent === 0 && path.length > 0) break;
    const item = /^(\s*)-(\s+|$)/.exec(line.text);
    if (isDash && item && line.indent === indent) continue;
    const keyIndent = item ? item[0].length : line.indent;
    const key = /^\s*(?:-\s+)*([^\s:#{[][^:#]*?)\s*:(?:\s|$)/.exec(line.text)?.[1];
    if (key !== undefined && keyIndent === indent && path.length === 0) siblings.push(key);
    if (item && line.indent < level && keyIndent >= level) {
      path.unshift('-');
      level = line.indent;
      continue;
    }
    if (key !== undefined && keyIndent < level) {
      path.unshift(key);
      level = keyIndent;
      if (item && line.indent < level) {
        path.unshift('-');
        level = line.indent;
      }
    } else if (key !== undefined && item === null && line.indent === level && path[0] === '-') {
      path.unshift(key); // a list may stand as far out as its key
    }
    if (level === 0 && indent > 0) break;
  }
  for (const line of linesBelow(text, lineFrom)) {
    if (line.indent < indent) break;
    const key = /^\s*([^\s:#{[-][^:#]*?)\s*:(?:\s|$)/.exec(line.text)?.[1];
    if (key !== undefined && line.indent === indent) siblings.push(key);
  }
  return { path, siblings };
}

function* linesAbove(text: string, lineFrom: number): Generator<Line> {
  for (let end = lineFrom - 1; end >= 0; ) {
    const from = startOfLine(text, end);
    const line = readLine(text, from, end);
    if (line) yield line;
    end = from - 1;
  }
}

function* linesBelow(text: string, lineFrom: number): Generator<Line> {
  for (let from = text.indexOf('\n', lineFrom) + 1; from > 0; ) {
    const end = text.indexOf('\n', from);
    const line = readLine(text, from, end < 0 ? text.length : end);
    if (line) yield line;
    from = end + 1;
  }
}

/** A line that holds something, without blank lines and comments. */
function readLine(text: string, from: number, to: number): Line | undefined {
  const line = text.slice(from, to);
  const indent = line.search(/[^ ]/);
  return indent < 0 || line[indent] === '#' || line[indent] === '\r'
    ? undefined
    : { indent, text: line, from };
}

/** Where the flow map or list that is open at the cursor starts: its outermost bracket, sought from the entry's first line. */
function flowStart(
  text: string,
  lineFrom: number,
  offset: number,
): { at: number; lineFrom: number } | undefined {
  let start = lineFrom;
  for (let tries = 0; tries < 50; tries++) {
    const open = openBrackets(text, start, offset);
    if (open.length > 0) return { at: open[0] as number, lineFrom: start };
    if (start === 0 || !/^(?:\s|\r?$)/.test(text.slice(start, text.indexOf('\n', start) + 1 || text.length)))
      return undefined;
    start = startOfLine(text, start - 1);
  }
  return undefined;
}

/** The offsets of brackets that are open at the cursor, outermost first; quotes and comments are passed over. */
function openBrackets(text: string, from: number, to: number): number[] {
  const open: number[] = [];
  for (let at = from; at < to; at++) {
    const char = text[at];
    if (char === '#' && /\s/.test(text[at - 1] ?? '\n')) at = nextLine(text, at, to);
    else if ((char === '"' || char === "'") && /[\s,[{:]/.test(text[at - 1] ?? ' '))
      at = closingQuote(text, at, to);
    else if (
      (char === '{' || char === '[') &&
      (open.length > 0 || /[\s:-]\s*$/.test(text.slice(from, at)) || at === from)
    )
      open.push(at);
    else if (char === '}' || char === ']') open.pop();
  }
  return open;
}

function nextLine(text: string, at: number, to: number): number {
  const end = text.indexOf('\n', at);
  return end < 0 ? to : end;
}

function closingQuote(text: string, at: number, to: number): number {
  const end = text.indexOf(text[at] as string, at + 1);
  return end < 0 ? to : end;
}

function inFlow(text: string, entry: { at: number; lineFrom: number }, offset: number): Cursor {
  const outer = readCursor(text, entry.at);
  const path = outer.wants === 'value' ? [...outer.path] : [...outer.path];
  const open = openBrackets(text, entry.at, offset);
  for (const [index, at] of open.entries()) {
    const inner = text.slice(at + 1, open[index + 1] ?? offset);
    if (text[at] === '[') path.push('-');
    if (index < open.length - 1) {
      const key = /([^\s,{[:]+)\s*:\s*$/.exec(inner)?.[1];
      if (key !== undefined) path.push(key);
    }
  }
  const last = open.at(-1) ?? entry.at;
  const inside = text.slice(last + 1, offset);
  const piece = inside.slice(inside.lastIndexOf(',') + 1).replace(/^\s+/, '');
  const siblings = keysIn(text, last, offset);
  const key = /^([^\s:]+)\s*:\s*/.exec(piece);
  if (key && text[last] === '{') {
    const typed = piece.slice(key[0].length);
    return {
      path: [...path, key[1] ?? ''],
      wants: 'value',
      typed,
      from: offset - typed.length,
      siblings,
      inFlow: true,
    };
  }
  return {
    path,
    wants: text[last] === '[' ? 'value' : 'key',
    typed: piece,
    from: offset - piece.length,
    siblings,
    inFlow: true,
  };
}

/** A definition has no longer collection; what is longer is text that lacks its bracket. */
const MOST_IN_BRACKETS = 20_000;

/** The keys of the map whose bracket stands at an offset, over all its lines, but for the one that the cursor is in. */
function keysIn(text: string, bracket: number, cursor: number): string[] {
  const keys: string[] = [];
  let depth = 0;
  let from = bracket + 1; // where the present entry begins
  const end = Math.min(text.length, bracket + MOST_IN_BRACKETS);
  const take = (to: number) => {
    // What is being typed has no comma yet, so the next line begins another entry.
    const next = from <= cursor && cursor < to ? text.indexOf('\n', cursor) : -1;
    if (next >= 0 && next < to) {
      takeFrom(from, next);
      takeFrom(next, to);
    } else takeFrom(from, to);
  };
  const takeFrom = (start: number, to: number) => {
    const found = /^(\s*(?:#.*\s+)*)([^\s,{}[\]:]+)\s*:/.exec(text.slice(start, to));
    const [whole = '', before = '', key] = found ?? [];
    // A cursor behind the colon is in the value.
    const isCursors = start + before.length <= cursor && cursor < start + whole.length;
    if (key !== undefined && !isCursors) keys.push(key);
  };
  for (let at = bracket; at < end; at++) {
    const char = text[at];
    if (char === '#' && /\s/.test(text[at - 1] ?? '\n')) {
      const next = nextLine(text, at, end);
      if (text.slice(from, at).trim() === '') from = next;
      at = next;
    } else if ((char === '"' || char === "'") && /[\s,[{:]/.test(text[at - 1] ?? ' '))
      at = closingQuote(text, at, end);
    else if (char === '{' || char === '[') depth++;
    else if ((char === '}' || char === ']') && --depth === 0) {
      take(at);
      return keys;
    } else if (char === ',' && depth === 1) {
      take(at);
      from = at + 1;
    }
  }
  return keys;
}
