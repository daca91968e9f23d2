/*
 * Guides are executed. A fenced block says in its first line what it is:
 *
 *     ```yaml FILE               writes a file
 *     ```yaml FILE in SECTION    adds lines at the end of a section of it
 *     ```diff FILE               changes lines of it: each line with - must stand there once, the + lines after it take its place
 *     ```console                 runs commands and compares what they print: `$ fettle check FILE`
 *     ```text                    is only read
 *
 * In what is printed, a line `…` stands for any lines, and `…` within a line for any text.
 */

/** A fenced block of a page. */
export interface Block {
  /** The first word after the fence. */
  readonly language: string;
  readonly file: string | undefined;
  readonly section: string | undefined;
  readonly lines: readonly string[];
  /** The line of the page in which its fence stands, from 1. */
  readonly line: number;
}

/** The fenced blocks of a page, in order. */
export function readBlocks(page: string): readonly Block[] {
  const blocks: Block[] = [];
  let open: { words: string[]; lines: string[]; line: number } | undefined;
  for (const [index, line] of page.split('\n').entries()) {
    if (!line.startsWith('```')) open?.lines.push(line);
    else if (!open) open = { words: line.slice(3).trim().split(/\s+/), lines: [], line: index + 1 };
    else {
      const [language = '', file, joint, section] = open.words;
      blocks.push({
        language,
        file,
        section: joint === 'in' ? section : undefined,
        lines: open.lines,
        line: open.line,
      });
      open = undefined;
    }
  }
  return blocks;
}

/** A text with lines added at the end of one of its sections; a section that it has not is added at its end. */
export function addToSection(text: string, section: string, added: readonly string[]): string {
  const lines = text.replace(/\n+$/, '').split('\n');
  const start = lines.indexOf(`${section}:`);
  if (start < 0) return [...lines, '', `${section}:`, ...added, ''].join('\n');
  let end = start + 1;
  while (end < lines.length && !/^[a-z]/.test(lines[end] ?? '')) end++;
  while (/^\s*$/.test(lines[end - 1] ?? '')) end--;
  lines.splice(end, 0, ...added);
  return `${lines.join('\n')}\n`;
}

/** A text with lines changed as a diff says; throws where a line that is to go does not stand there once. */
export function applyDiff(text: string, diff: readonly string[]): string {
  const lines = text.split('\n');
  let at = -1;
  for (const change of diff) {
    const line = change.slice(1);
    if (change.startsWith('-')) {
      at = lines.indexOf(line);
      if (at < 0 || lines.includes(line, at + 1)) throw new Error(`must stand there once: ${line}`);
      lines.splice(at, 1);
    } else if (change.startsWith('+')) {
      if (at < 0) throw new Error(`nothing goes before it: ${line}`);
      lines.splice(at++, 0, line);
    } else throw new Error(`neither - nor +: ${change}`);
  }
  return lines.join('\n');
}

/** The commands of a console block, each with what it should print. */
export function readConsole(
  lines: readonly string[],
): readonly { readonly command: string; readonly expected: readonly string[] }[] {
  const runs: { command: string; expected: string[] }[] = [];
  for (const line of lines) {
    if (line.startsWith('$ ')) runs.push({ command: line.slice(2), expected: [] });
    else runs.at(-1)?.expected.push(line);
  }
  return runs;
}

/** Whether what was printed is what the page shows. */
export function matches(expected: readonly string[], printed: string): boolean {
  const pattern = expected
    .map((line) =>
      line.trim() === '…'
        ? '(?:.*\n)*?'
        : `${line
            .split('…')
            .map((piece) => piece.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))
            .join('.*')}\n`,
    )
    .join('');
  return new RegExp(`^${pattern}$`).test(`${printed.trimEnd()}\n`);
}
