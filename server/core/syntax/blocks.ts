/**
 * Cuts a text into stretches that can be parsed by themselves: the sections at column 0, and inside a section its
 * entries or list items. The cut depends on the text alone, so an edit can never leave a stale one behind.
 *
 * It is right because YAML wants everything that belongs to an entry to stand deeper than the entry. Texts that use
 * what reaches across entries (anchors, directives, several documents, lone carriage returns) are not cut at all.
 *
 * Comments between entries are cut off as well: they mean nothing to the tree, so typing one changes no entry.
 */

export interface Cut {
  /**
   * `key` is a section's own line; its entries or items follow. `section` is a section in one piece. `between` holds
   * nothing but comments and blank lines.
   */
  readonly kind: 'key' | 'entry' | 'section' | 'between' | 'whole';
  readonly from: number;
  readonly to: number;
}

/** Cuts the whole text; the cuts follow one another without gaps. */
export function cutText(text: string): Cut[] {
  if (reachesAcross(text)) return [{ kind: 'whole', from: 0, to: text.length }];
  const cuts: Cut[] = [];
  for (const section of sectionsOf(text)) cutSection(text, section.lines, section.to, cuts);
  const [first] = cuts;
  if (!first) return [{ kind: 'whole', from: 0, to: text.length }];
  if (first.from > 0) cuts.unshift({ kind: 'between', from: 0, to: first.from });
  return cuts;
}

interface Line {
  readonly from: number;
  readonly indent: number;
  readonly dash: boolean;
}

interface Section {
  readonly lines: readonly Line[];
  readonly to: number;
}

const DASH = 45;
const HASH = 35;
const SPACE = 32;
const LINE_FEED = 10;
const RETURN = 13;

/** What begins or ends a document, or tells something of it, at the start of a line. */
const MARKS = ['---', '...', '%'] as const;

/** True where a part of the text can mean something for another part, or the text is no block map. */
function reachesAcross(text: string): boolean {
  if (text.includes('\r') && /\r(?!\n)/.test(text)) return true;
  if (MARKS.some((mark) => text.startsWith(mark) || text.includes(`\n${mark}`))) return true;
  // Most texts have none of these letters, and to look for one is much quicker than to match lines.
  const hasAny = text.includes('&') || text.includes('*') || text.includes('<<');
  if (hasAny && /^[^#\n]*(?:(?:[\s[{,:-])[&*][^\s,[\]{}&*]|<<[ \t]*:)/m.test(text)) return true;
  const first = /^[ \t]*[^\s#].*/m.exec(text)?.[0];
  return first !== undefined && /^(?:\s|[-{["'|>?!@`&*%])/.test(first);
}

/** The lines that hold something, gathered under the line at column 0 that opens their section. */
function sectionsOf(text: string): Section[] {
  const sections: { lines: Line[]; to: number }[] = [];
  for (let from = 0; from < text.length; ) {
    let next = text.indexOf('\n', from);
    next = next < 0 ? text.length : next + 1;
    const line = readLine(text, from, next);
    if (line) {
      const current = sections.at(-1);
      if (current && (line.indent > 0 || line.dash || isCloser(text, line.from))) current.lines.push(line);
      else {
        if (current) current.to = line.from;
        sections.push({ lines: [line], to: text.length });
      }
    }
    from = next;
  }
  return sections;
}

/** The indentation of a line, or undefined for a blank line or one that is only a comment. */
function readLine(text: string, from: number, to: number): Line | undefined {
  let at = from;
  while (at < to && text.charCodeAt(at) === SPACE) at++;
  const code = at < to ? text.charCodeAt(at) : LINE_FEED;
  if (code === LINE_FEED || code === RETURN || code === HASH) return undefined;
  const after = text.charCodeAt(at + 1);
  const dash = code === DASH && (at + 1 >= to || after === SPACE || after === LINE_FEED || after === RETURN);
  return { from, indent: at - from, dash };
}

/** A bracket or quote at column 0 closes what an earlier line opened. */
function isCloser(text: string, at: number): boolean {
  return /[\]})]/.test(text[at] ?? '');
}

function cutSection(text: string, lines: readonly Line[], to: number, cuts: Cut[]): void {
  const [key, first] = lines;
  if (!key) return;
  const entries = first && opensSection(text, key.from) ? entryStarts(text, lines, first) : undefined;
  const cut = (kind: Cut['kind'], indent: number, from: number, end: number): void => {
    const between = commentsFrom(text, from, end, indent);
    cuts.push({ kind, from, to: between });
    if (between < end) cuts.push({ kind: 'between', from: between, to: end });
  };
  if (!entries || !first) {
    cut('section', key.indent, key.from, to);
    return;
  }
  cut('key', first.indent, key.from, first.from);
  for (const [index, from] of entries.entries()) cut('entry', first.indent, from, entries[index + 1] ?? to);
}

/**
 * Where the comments behind an entry start. One that stands deeper than the entry may be the text of a block scalar; the
 * first that does not ends the entry, and whatever follows it is a comment too.
 * @param indent the indentation of the entry
 * @returns the end of the stretch where there are none
 */
function commentsFrom(text: string, from: number, to: number, indent: number): number {
  let start = to;
  for (let end = to; end > from; ) {
    const lineFrom = text.lastIndexOf('\n', end - 2) + 1;
    if (lineFrom <= from || readLine(text, lineFrom, end)) break;
    if (isComment(text, lineFrom, indent)) start = lineFrom;
    end = lineFrom;
  }
  return start;
}

/** Whether a line is a comment that stands at most so deep. */
function isComment(text: string, from: number, indent: number): boolean {
  let at = from;
  while (text.charCodeAt(at) === SPACE) at++;
  return at - from <= indent && text.charCodeAt(at) === HASH;
}

/** True for `key:` with nothing but a comment after it. */
function opensSection(text: string, from: number): boolean {
  const end = text.indexOf('\n', from);
  return /^[^\s"'#{}[\],&*!|>%@`?][^#]*:[ \t]*(?:[ \t]#.*)?\r?$/.test(
    text.slice(from, end < 0 ? text.length : end),
  );
}

/** Where the entries of a section start, or undefined when the section is not a plain list of entries or items. */
function entryStarts(text: string, lines: readonly Line[], first: Line): number[] | undefined {
  if (
    !first.dash &&
    (first.indent === 0 || !/^ *[^\s"'#{}[\],&*!|>%@`?][^#\n]*?:(?:\s|$)/.test(lineAt(text, first.from)))
  ) {
    return undefined;
  }
  const starts: number[] = [];
  for (const line of lines.slice(1)) {
    if (line.indent < first.indent) return undefined;
    if (line.indent > first.indent) continue;
    if (line.dash && !first.dash) return undefined;
    starts.push(line.from);
  }
  return starts;
}

function lineAt(text: string, from: number): string {
  const end = text.indexOf('\n', from);
  return text.slice(from, end < 0 ? text.length : end);
}
