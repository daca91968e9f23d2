import type { Analysis } from '../analysis.ts';
import { lineEnd, replaceRange } from '../findings/common/edits.ts';
import type { Finding } from '../findings/rule.ts';
import { splitComment } from '../format/scan.ts';
import { say } from '../language/say.ts';
import type { Edit, Fix } from '../problem.ts';
import { lineMeant, readDirectives } from '../silence/directives.ts';
import { canBeSilenced } from '../silence/settle.ts';
import { startOfLine } from '../syntax/lines.ts';
import { rangeOf, type Tree } from '../syntax/tree.ts';
import { silenceProject } from './silence-project.ts';

/** How a finding can be silenced: for its line, for its file, and for the whole project. */
export function listSilences(analysis: Analysis, { code, at }: Finding): Fix[] {
  const { tree } = analysis;
  const range = rangeOf(tree, at);
  if (!range || !canBeSilenced(code)) return [];
  const line = silenceLine(tree, range.from, code);
  const file = silenceFile(tree, code);
  return [
    ...(line ? [{ title: say`Silence ${code} for this line`, edits: [line], safe: false }] : []),
    ...(file ? [{ title: say`Silence ${code} for this file`, edits: [file], safe: false }] : []),
    ...(analysis.kind === 'project' ? [] : silenceProject(analysis, code)),
  ];
}

/** Nobody reads what stands behind a longer line. */
const LONGEST_LINE = 5000;

/** Behind the line; above it where the line has a comment already, or into the silence that is there. */
function silenceLine(tree: Tree, at: number, code: string): Edit | undefined {
  const from = startOfLine(tree.text, at);
  const there = readDirectives(tree).find((directive) => {
    const line = directive.verb.text === 'silence' ? lineMeant(tree, directive) : undefined;
    return line !== undefined && line.from <= at && at <= line.to;
  });
  const last = there?.codes.at(-1);
  if (last) return { at: { ...last.at, from: last.at.to }, text: `, ${code}` };
  const line = /^[^\r\n]*/.exec(tree.text.slice(from))?.[0] ?? '';
  if (line.length > LONGEST_LINE) return undefined;
  const { code: said, comment } = splitComment(line);
  const mark = tree.text.startsWith('\uFEFF') && from === 0 ? 1 : 0;
  if (comment === '') {
    const end = from + said.trimEnd().length;
    return replaceRange(tree, end, from + line.length, `  # fettle silence ${code}`);
  }
  const indent = /^ */.exec(line.slice(mark))?.[0] ?? '';
  return replaceRange(tree, from + mark, from + mark, `${indent}# fettle silence ${code}${lineEnd(tree)}`);
}

/** At the top, or into the silence of the file that is there. */
function silenceFile(tree: Tree, code: string): Edit | undefined {
  const there = readDirectives(tree).find(
    ({ verb, codes }) => verb.text === 'silence-file' && codes.length > 0,
  );
  const last = there?.codes.at(-1);
  if (last) return { at: { ...last.at, from: last.at.to }, text: `, ${code}` };
  const start = tree.text.startsWith('\uFEFF') ? 1 : 0;
  return replaceRange(tree, start, start, `# fettle silence-file ${code}${lineEnd(tree)}`);
}
