import type { Line } from './lines.ts';

/** Two blanks for each level, and a list stands deeper than its key. */
const STEP = 2;

interface Level {
  readonly old: number;
  readonly now: number;
  readonly dash: boolean;
}

/** How far each line is to stand from the margin. Comments go with the entry that follows, or else with one above. */
export function indentLines(lines: readonly Line[]): number[] {
  const entries = indentEntries(lines);
  const indents: number[] = [];
  let shift = 0;
  for (const [index, line] of lines.entries()) {
    const own = entries.get(index);
    if (own !== undefined) shift = own - line.indent;
    if (line.kind === 'blank') indents.push(0);
    else if (line.kind === 'frozen') indents.push(line.indent);
    else if (line.kind === 'comment') indents.push(indentComment(lines, entries, index, shift));
    else indents.push(own ?? Math.max(line.indent === 0 ? 0 : 1, line.indent + shift));
  }
  return indents;
}

function indentEntries(lines: readonly Line[]): Map<number, number> {
  const entries = new Map<number, number>();
  const levels: Level[] = [];
  for (const [index, line] of lines.entries()) {
    if (line.kind !== 'entry') continue;
    let old = line.indent;
    let rest = line.text.slice(old);
    let first: number | undefined;
    for (let dash = /^-(?:\s+|$)/.exec(rest); dash; dash = /^-(?:\s+|$)/.exec(rest)) {
      const now = enter(levels, old, true);
      first ??= now;
      old += dash[0].length;
      rest = rest.slice(dash[0].length);
    }
    if (rest !== '') {
      const now = enter(levels, old, false);
      first ??= now;
    }
    entries.set(index, first ?? line.indent);
  }
  return entries;
}

/** Goes to the level that stands at an indentation, and gives where it is to stand. */
function enter(levels: Level[], old: number, dash: boolean): number {
  const isInside = (level: Level | undefined) =>
    level !== undefined && (level.old > old || (level.old === old && level.dash && !dash));
  while (isInside(levels.at(-1))) levels.pop();
  const top = levels.at(-1);
  if (top && top.old === old && top.dash === dash) return top.now;
  const now = top ? top.now + STEP : 0;
  levels.push({ old, now, dash });
  return now;
}

function indentComment(
  lines: readonly Line[],
  entries: ReadonlyMap<number, number>,
  index: number,
  shift: number,
): number {
  const { indent } = lines[index] as Line;
  let next = index + 1;
  while (next < lines.length && lines[next]?.kind !== 'entry') next++;
  if (lines[next]?.indent === indent) return entries.get(next) ?? indent;
  for (let at = index - 1; at >= 0; at--) {
    if (lines[at]?.kind === 'entry' && lines[at]?.indent === indent) return entries.get(at) ?? indent;
  }
  return indent === 0 ? 0 : Math.max(0, indent + shift);
}
