/**
 * Cuts a text into stretches that can be parsed by themselves: the sections at column 0, and inside a section its
 * entries or list items. The cut depends on the text alone, so an edit can never leave a stale one behind.
 *
 * It is right because YAML wants everything that belongs to an entry to stand deeper than the entry. Texts that use
 * what reaches across entries (anchors, directives, several documents, lone carriage returns) are not cut at all.
 *
 * Comments between entries are cut off as well: they mean nothing to the tree, so typing one changes no entry.
 */

/**
 * `key` is a section's own line; its entries or items follow. `section` is a section in one piece. `between` holds
 * nothing but comments and blank lines.
 */
type CutKind = 'key' | 'entry' | 'section' | 'between' | 'whole';

/**
 * The stretches of a text, which follow one another without gaps. There are thousands, made anew with every key that
 * somebody types, so they are two plain lists and no object each.
 */
export interface Cuts {
  /** What each stretch is. */
  readonly kinds: readonly CutKind[];
  /** Where each stretch starts, and behind the last one where that ends. */
  readonly starts: readonly number[];
}

/** Cuts the whole text. */
export function cutText(text: string): Cuts {
  const whole: Cuts = { kinds: ['whole'], starts: [0, text.length] };
  if (reachesAcross(text)) return whole;
  const cutter = new Cutter(text);
  for (let from = 0; from < text.length; ) {
    if (isMark(text, from)) return whole;
    const end = text.indexOf('\n', from);
    const next = end < 0 ? text.length : end + 1;
    readLine(cutter, text, from, next);
    from = next;
  }
  return cutter.finish() ?? whole;
}

const DASH = 45;
const HASH = 35;
const SPACE = 32;
const LINE_FEED = 10;
const RETURN = 13;

/** What begins or ends a document, or tells something of it, at the start of a line. */
const MARKS = ['---', '...', '%'] as const;
const FIRST_OF_MARKS: ReadonlySet<number> = new Set(MARKS.map((mark) => mark.charCodeAt(0)));

function isMark(text: string, from: number): boolean {
  return FIRST_OF_MARKS.has(text.charCodeAt(from)) && MARKS.some((mark) => text.startsWith(mark, from));
}

/** True where a part of the text can mean something for another part, or the text is no block map. */
function reachesAcross(text: string): boolean {
  if (text.includes('\r') && /\r(?!\n)/.test(text)) return true;
  // Most texts have none of these letters, and to look for one is much quicker than to match lines.
  const hasAny = text.includes('&') || text.includes('*') || text.includes('<<');
  if (hasAny && /^[^#\n]*(?:(?:[\s[{,:-])[&*][^\s,[\]{}&*]|<<[ \t]*:)/m.test(text)) return true;
  const first = /^[ \t]*[^\s#].*/m.exec(text)?.[0];
  return first !== undefined && /^(?:\s|[-{["'|>?!@`&*%])/.test(first);
}

/** Tells the cutter of a line, unless it is blank. */
function readLine(cutter: Cutter, text: string, from: number, to: number): void {
  let at = from;
  while (at < to && text.charCodeAt(at) === SPACE) at++;
  const code = at < to ? text.charCodeAt(at) : LINE_FEED;
  if (code === HASH) cutter.addComment(from, at - from);
  else if (code !== LINE_FEED && code !== RETURN)
    cutter.addLine(from, at - from, code === DASH && isBlank(text, at + 1, to));
}

function isBlank(text: string, at: number, to: number): boolean {
  const code = at < to ? text.charCodeAt(at) : LINE_FEED;
  return code === SPACE || code === LINE_FEED || code === RETURN;
}

/** Is told of the lines of a text, from the first to the last, and cuts where one begins something new. */
class Cutter {
  private readonly text: string;
  private readonly kinds: CutKind[] = [];
  private readonly starts: number[] = [];
  /** The place of the section that is open, among the stretches. */
  private section = -1;
  /** How deep the line stands that opens the section. */
  private depth = 0;
  /** The first line below it, and whether it and those that follow are a plain list of entries or items. */
  private first: { readonly indent: number; readonly dash: boolean; readonly isPlain: boolean } | undefined;
  /** The comments since the last line that holds something: where each starts, and how deep it stands. */
  private readonly comments: { readonly from: number; readonly indent: number }[] = [];

  constructor(text: string) {
    this.text = text;
  }

  addComment(from: number, indent: number): void {
    this.comments.push({ from, indent });
  }

  /** @param dash whether the line is an item of a list */
  addLine(from: number, indent: number, dash: boolean): void {
    if (this.section < 0 || (indent === 0 && !dash && !isCloser(this.text, from)))
      this.openSection(from, indent);
    else if (!this.first) this.addFirst(from, indent, dash);
    else if (this.first.isPlain) this.addNext(this.first, from, indent, dash);
    this.comments.length = 0;
  }

  /** Undefined where no line holds anything. */
  finish(): Cuts | undefined {
    const { kinds, starts, text } = this;
    if (this.section < 0) return undefined;
    this.endStretch();
    starts.push(text.length);
    return { kinds, starts };
  }

  private openSection(from: number, indent: number): void {
    if (this.section >= 0) this.endStretch();
    else if (from > 0) this.cut('between', 0);
    this.section = this.kinds.length;
    this.depth = indent;
    this.first = undefined;
    this.cut('section', from);
  }

  private addFirst(from: number, indent: number, dash: boolean): void {
    const { text } = this;
    const isPlain =
      opensSection(text, this.starts[this.section] ?? 0) && (dash || (indent > 0 && hasKey(text, from)));
    this.first = { indent, dash, isPlain };
    if (!isPlain) return;
    this.kinds[this.section] = 'key';
    this.endStretch();
    this.cut('entry', from);
  }

  private addNext(first: NonNullable<Cutter['first']>, from: number, indent: number, dash: boolean): void {
    if (indent > first.indent) return;
    if (indent < first.indent || (dash && !first.dash)) this.joinSection(first);
    else {
      this.endStretch();
      this.cut('entry', from);
    }
  }

  /** The section is no plain list, as a line shows that stands otherwise: it is one stretch. */
  private joinSection(first: NonNullable<Cutter['first']>): void {
    this.first = { ...first, isPlain: false };
    this.kinds.length = this.section;
    this.starts.length = this.section + 1;
    this.kinds.push('section');
  }

  /**
   * Cuts off the comments behind an entry. One that stands deeper than the entry may be the text of a block scalar; the
   * first that does not ends the entry, and whatever follows it is a comment too.
   */
  private endStretch(): void {
    const depth = this.first?.isPlain ? this.first.indent : this.depth;
    for (const { from, indent } of this.comments) {
      if (indent > depth) continue;
      this.cut('between', from);
      return;
    }
  }

  private cut(kind: CutKind, from: number): void {
    this.kinds.push(kind);
    this.starts.push(from);
  }
}

/** A bracket or quote at column 0 closes what an earlier line opened. */
function isCloser(text: string, at: number): boolean {
  return /[\]})]/.test(text[at] ?? '');
}

/** True for `key:` with nothing but a comment after it. */
function opensSection(text: string, from: number): boolean {
  return /^[^\s"'#{}[\],&*!|>%@`?][^#]*:[ \t]*(?:[ \t]#.*)?\r?$/.test(lineAt(text, from));
}

/** True for a line that begins with a plain key. */
function hasKey(text: string, from: number): boolean {
  return /^ *[^\s"'#{}[\],&*!|>%@`?][^#\n]*?:(?:\s|$)/.test(lineAt(text, from));
}

function lineAt(text: string, from: number): string {
  const end = text.indexOf('\n', from);
  return text.slice(from, end < 0 ? text.length : end);
}
