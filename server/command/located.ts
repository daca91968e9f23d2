import type { Finding } from '../core/findings/rule.ts';
import { rangeOf } from '../core/syntax/tree.ts';
import type { Loaded } from './load.ts';

/** A finding as the command line writes it: lines and columns count from 1, columns in UTF-16 units. */
export interface LocatedFinding {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
  readonly severity: Finding['severity'];
  readonly code: string;
  readonly message: string;
}

/** The findings of a file with their lines and columns. */
export function locateFindings({ path, fettle, analysis }: Loaded): LocatedFinding[] {
  const findings = fettle.findings(analysis);
  const starts = findings.length > 0 ? lineStarts(analysis.tree.text) : [];
  return findings.map((finding) => {
    const range = rangeOf(analysis.tree, finding.at) ?? { from: 0, to: 0 };
    const start = positionAt(starts, range.from);
    const end = positionAt(starts, range.to);
    return {
      file: path,
      line: start.line,
      column: start.column,
      endLine: end.line,
      endColumn: end.column,
      severity: finding.severity,
      code: finding.code,
      message: finding.message,
    };
  });
}

/** Where lines start; a lone carriage return ends a line too, as it does in editors. */
function lineStarts(text: string): number[] {
  const starts = [0];
  for (const { index, 0: end } of text.matchAll(/\r\n|\r|\n/g)) starts.push(index + end.length);
  return starts;
}

function positionAt(starts: readonly number[], offset: number): { line: number; column: number } {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((starts[middle] ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  return { line: low + 1, column: offset - (starts[low] ?? 0) + 1 };
}
