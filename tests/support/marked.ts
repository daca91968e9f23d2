import { type Analysis, analyse } from '../../server/core/analysis.ts';
import { findAll } from '../../server/core/findings/find.ts';
import type { Finding } from '../../server/core/findings/rule.ts';
import { createTrees } from '../../server/core/model/trees.ts';
import type { Fix } from '../../server/core/problem.ts';
import { rangeOf } from '../../server/core/syntax/tree.ts';
import type { FileState } from '../../server/core/world.ts';
import { worldOf } from './world.ts';

/*
 * Text with marks: what is expected of a line stands under it, and a missing or an extra finding fails.
 *
 *     travel: 640
 *     #       ^^^ error unit/missing: no unit
 *
 * The carets stand under the place; `#^^^` marks a place that begins in column 0, where the # itself would stand.
 * Where text follows the colon, the message must contain it. `--- file: NAME` begins another file.
 */

/** What stands under a line. Lines and columns count from 0. */
export interface Mark {
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly severity: string;
  readonly code: string;
  readonly text: string;
}

/** Texts of one machine: the first is analysed, the others are what it names. */
export type Texts = ReadonlyMap<string, string>;

const MARK = /^( *#) *(\^+) +(error|warning|hint) +([a-z]+\/[a-z-]+)(?:: *(.*))?$/;

/** Takes a text with marks apart: into its files, and what is expected of the first of them. */
export function readMarked(text: string, name: string): { texts: Texts; marks: readonly Mark[] } {
  const texts = new Map<string, string>();
  let marks: readonly Mark[] = [];
  for (const [file, marked] of splitFiles(text, name)) {
    const { plain, found } = stripMarks(marked);
    if (texts.size === 0) marks = found;
    texts.set(file, plain);
  }
  return { texts, marks };
}

/** Cuts a text at its `--- file: NAME` lines. */
export function splitFiles(text: string, name: string): Texts {
  const [first = '', ...others] = text.split(/^--- file: (\S+)\n/m);
  const files = new Map<string, string>(others.length === 0 || first.trim() !== '' ? [[name, first]] : []);
  for (let at = 0; at < others.length; at += 2) files.set(others[at] ?? '', others[at + 1] ?? '');
  return files;
}

function stripMarks(marked: string): { plain: string; found: Mark[] } {
  const lines: string[] = [];
  const found: Mark[] = [];
  for (const line of marked.split('\n')) {
    const match = MARK.exec(line);
    if (!match) {
      lines.push(line);
      continue;
    }
    const [, hash = '', carets = '', severity = '', code = '', text = ''] = match;
    const column = line.indexOf('^');
    const from = hash === '#' && column === 1 ? 0 : column;
    found.push({ line: lines.length - 1, from, to: from + carets.length, severity, code, text });
  }
  return { plain: lines.join('\n'), found };
}

/** The ways in which the same text may be stored; each must give the same findings. */
export const VARIANTS: ReadonlyMap<string, (text: string) => string> = new Map([
  ['LF', (text) => text],
  ['CRLF', (text) => text.replaceAll('\n', '\r\n')],
  ['BOM', (text) => `\uFEFF${text}`],
  ['BOM and CRLF', (text) => `\uFEFF${text.replaceAll('\n', '\r\n')}`],
  ['no final line end', (text) => text.replace(/\n+$/, '')],
  // Behind the first line, so that all places after it are shifted by code units and not by characters.
  ['astral characters', (text) => text.replace(/^([a-z]+: .*)\n/, '$1 # 🛠🎠\n')],
]);

/** Analyses the first of the texts among the others. */
export function analyseTexts(texts: ReadonlyMap<string, string | FileState>): {
  analysis: Analysis;
  findings: readonly Finding[];
} {
  const [[file, text]] = [...texts] as [[string, string | FileState]];
  if (typeof text !== 'string') throw new Error('the first file must be a text');
  const analysis = analyse(file, text, worldOf(texts), createTrees());
  return { analysis, findings: findAll(analysis) };
}

/** A finding as the mark that would expect it; one that spans several lines is marked on the first of them. */
export function markOf({ tree }: Analysis, finding: Finding): Mark {
  const range = rangeOf(tree, finding.at);
  if (!range) throw new Error(`${finding.code} has no place in this text`);
  const lineFrom = tree.text.lastIndexOf('\n', range.from - 1) + 1;
  const lineEnd = /\r?\n|$/.exec(tree.text.slice(range.from))?.index ?? 0;
  const shift = lineFrom === 0 && tree.text.startsWith('\uFEFF') ? 1 : 0;
  const from = Math.max(0, range.from - lineFrom - shift);
  const length = Math.max(1, Math.min(range.to - range.from, lineEnd));
  return {
    line: tree.text.slice(0, range.from).split('\n').length - 1,
    from,
    to: from + length,
    severity: finding.severity,
    code: finding.code,
    text: finding.message,
  };
}

/** A mark in one line, for comparing; the words are compared by themselves. */
export function placeOfMark({ line, from, to, severity, code }: Mark): string {
  return `${line + 1}:${from + 1}-${to + 1} ${severity} ${code}`;
}

/** Applies a fix to the text that it was offered for. */
export function applyFix({ tree }: Analysis, { edits }: Fix): string {
  const placed = edits.map(({ at, text }) => {
    const range = rangeOf(tree, at);
    if (!range) throw new Error('an edit has no place in this text');
    return { ...range, text };
  });
  placed.sort((a, b) => b.from - a.from);
  return placed.reduce((text, edit) => text.slice(0, edit.from) + edit.text + text.slice(edit.to), tree.text);
}
