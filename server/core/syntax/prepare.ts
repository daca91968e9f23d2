/**
 * Makes a text fit for parsing without moving a single character: what would only confuse the parser is blanked
 * out, and remembered as a problem of its own, so that one slip does not become six errors.
 */

/** A stretch of the whole text, before it is cut into blocks. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

export interface Prepared {
  /** As long as the given text; every offset means the same place in both. */
  readonly text: string;
  /** The marker line that opens each merge conflict. */
  readonly conflicts: readonly Stretch[];
  /** The tabs that open a line. */
  readonly tabs: readonly Stretch[];
}

/** Blanks byte order mark, the other side of merge conflicts, and tabs used as indentation. */
export function prepareText(text: string): Prepared {
  // A line end takes the place of the mark, since a blank would indent the first key.
  let prepared = text.charCodeAt(0) === 0xfeff ? `\n${text.slice(1)}` : text;
  const conflicts: Stretch[] = [];
  const tabs: Stretch[] = [];
  // Most texts have neither, and to look for a letter is much quicker than to match lines.
  if (prepared.includes('<<<<<<<') && /^<{7}(?: |\r?$)/m.test(prepared))
    prepared = keepSide(prepared, 'ours', conflicts);
  if (prepared.includes('\t') && /^ *\t/m.test(prepared)) prepared = blankTabs(prepared, tabs);
  return { text: prepared, conflicts, tabs };
}

/** A text with merge conflicts as it would be with the second version of each; every offset means the same place. */
export function keepTheirSide(text: string): string {
  return keepSide(text, 'theirs', []);
}

/** Of what stands between `<<<<<<<` and `>>>>>>>` one side stays; markers and the other sides become blanks. */
function keepSide(text: string, wanted: 'ours' | 'theirs', conflicts: Stretch[]): string {
  let side: 'none' | 'ours' | 'base' | 'theirs' = 'none';
  return replaceLines(text, (line, from) => {
    if (side === 'none' && /^<{7}(?: |$)/.test(line)) {
      side = 'ours';
      conflicts.push({ from, to: from + line.length });
      return blank(line);
    }
    if (side === 'ours' && /^\|{7}(?: |$)/.test(line)) {
      side = 'base';
      return blank(line);
    }
    if ((side === 'ours' || side === 'base') && /^={7}(?: |$)/.test(line)) {
      side = 'theirs';
      return blank(line);
    }
    if (side !== 'none' && /^>{7}(?: |$)/.test(line)) {
      side = 'none';
      return blank(line);
    }
    return side === 'none' || side === wanted ? line : blank(line);
  });
}

function blankTabs(text: string, tabs: Stretch[]): string {
  return replaceLines(text, (line, from) => {
    const indent = /^ *\t[ \t]*/.exec(line)?.[0];
    if (indent === undefined) return line;
    if (indent.length < line.length) tabs.push({ from, to: from + indent.length });
    return blank(indent) + line.slice(indent.length);
  });
}

function replaceLines(text: string, replace: (line: string, from: number) => string): string {
  return text.replace(/[^\r\n]+/g, (line, from: number) => replace(line, from));
}

const blank = (line: string) => ' '.repeat(line.length);
