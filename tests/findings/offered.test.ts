import { readFileSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Analysis } from '../../server/core/analysis.ts';
import { RULES } from '../../server/core/findings/list.ts';
import type { Finding, Rule } from '../../server/core/findings/rule.ts';
import type { Edit, Fix, Related } from '../../server/core/problem.ts';
import { rangeOf } from '../../server/core/syntax/tree.ts';
import { analyseTexts } from '../support/marked.ts';
import { readPageExamples } from '../support/page-examples.ts';

/*
 * What is said and offered of every wrong example of the pages, letter by letter: words, places beside it, cures and their
 * edits. A cure that is no longer offered cures nothing wrongly, so no other test would miss it. `npm run baselines` writes
 * the list anew; the diff is what a reviewer reads.
 */

const LIST = new URL('../baselines/offered.txt', import.meta.url);

function lineOf({ tree }: Analysis, at: Edit['at']): string {
  const from = rangeOf(tree, at)?.from;
  return from === undefined ? '?' : String(tree.text.slice(0, from).split('\n').length);
}

function printEdit(analysis: Analysis, { at, text }: Edit): string {
  const range = rangeOf(analysis.tree, at);
  const was = range ? analysis.tree.text.slice(range.from, range.to) : '';
  return `    ${lineOf(analysis, at)}: ${JSON.stringify(was)} -> ${JSON.stringify(text)}\n`;
}

function printFix(analysis: Analysis, { title, safe, edits, newFiles = [], elsewhere = [] }: Fix): string {
  return [
    `  offers${safe ? ' safely' : ''}: ${title}\n`,
    ...edits.map((edit) => printEdit(analysis, edit)),
    ...newFiles.map(({ file, text }) => `    makes ${file}: ${JSON.stringify(text)}\n`),
    ...elsewhere.map(({ file, from, to, text }) => `    ${file} ${from}-${to}: ${JSON.stringify(text)}\n`),
  ].join('');
}

function printRelated(analysis: Analysis, { file, at, note }: Related): string {
  return `  beside ${file ?? lineOf(analysis, at)}: ${note}\n`;
}

function printFinding(analysis: Analysis, finding: Finding): string {
  return [
    `${lineOf(analysis, finding.at)} ${finding.severity} ${finding.code}: ${finding.message}\n`,
    ...(finding.related ?? []).map((related) => printRelated(analysis, related)),
    ...(finding.fixes ?? []).map((fix) => printFix(analysis, fix)),
  ].join('');
}

function printRule(rule: Rule): string {
  return readPageExamples(rule)
    .filter(({ kind }) => kind === 'wrong')
    .map(({ texts }, index) => {
      const { analysis, findings } = analyseTexts(texts);
      const own = findings.filter(({ code }) => code === rule.code);
      return `== ${rule.code} ${index + 1}\n${own.map((finding) => printFinding(analysis, finding)).join('')}\n`;
    })
    .join('');
}

if (process.env.UPDATE_BASELINES === '1') writeFileSync(LIST, RULES.map(printRule).join(''));
const sections = readFileSync(LIST, 'utf8').split(/^(?=== )/m);
const codeOf = (section: string) => section.split(' ')[1] ?? '';

test.each(RULES.map((rule) => [rule.code, rule] as const))('%s', (code, rule) => {
  expect(printRule(rule)).toBe(sections.filter((section) => codeOf(section) === code).join(''));
});

test('the list has all findings and no others', () => {
  expect([...new Set(sections.map(codeOf))]).toEqual(RULES.map(({ code }) => code));
});
