import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { RULES } from '../../server/core/findings/list.ts';
import { VALUE_REASONS } from '../../server/core/findings/unit/not-a-quantity/rule.ts';
import { ROOT } from '../support/lsp-client.ts';

/** What the readers can report and what the findings have words for are the same. */

const CORE = path.join(ROOT, 'server/core');
const FINDINGS = path.join(CORE, 'findings');

function sources(folder: string): { file: string; text: string }[] {
  return fs
    .readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => ({
      file: path.join(folder, file),
      text: fs.readFileSync(path.join(folder, file), 'utf8'),
    }));
}

const everywhere = sources(CORE);
const readers = everywhere.filter(({ file }) => !file.startsWith(FINDINGS));
const rules = everywhere.filter(({ file }) => file.startsWith(FINDINGS));

const codesIn = (files: readonly { text: string }[], pattern: RegExp) =>
  new Set(files.flatMap(({ text }) => [...text.matchAll(pattern)].map(([, code = '']) => code)));

test('every problem that a reader reports has a finding that gives it words, and no finding waits for one that none reports', () => {
  const reported = codesIn(readers, /'((?:yaml|shape|unit|name|silence)\/[a-z-]+)'/g);
  const awaited = codesIn(rules, /fromProblems\('([a-z]+\/[a-z-]+)'\)/g);
  expect(reported.size).toBeGreaterThan(20);
  expect([...reported].sort()).toEqual([...awaited].sort());
  const codes = RULES.map((rule) => rule.code);
  for (const code of awaited) expect(codes).toContain(code);
});

test('every finding stands in the list, under the code of its folder', () => {
  const folders = rules
    .filter(({ file }) => path.basename(file) === 'rule.ts' && path.dirname(file) !== FINDINGS)
    .map(({ file }) => path.relative(FINDINGS, path.dirname(file)).replaceAll(path.sep, '/'));
  expect(RULES.map((rule) => rule.code).sort()).toEqual(folders.sort());
});

test('every reason why a value cannot be read has its words', () => {
  const units = readers.filter(({ file }) => file.startsWith(path.join(CORE, 'units')));
  const reasons = codesIn(
    units,
    /(?:refuseNumber\(|\bno\(|reason: |const reason = .*?\? |refuseNumber\(.*?\? '[a-z-]+' : )'([a-z-]+)'/g,
  );
  expect(reasons.size).toBeGreaterThan(12);
  for (const reason of reasons) expect(VALUE_REASONS).toContain(reason);
});

test('messages are short and never show undefined, and are made from the data alone', () => {
  for (const rule of RULES) {
    const message = rule.say({});
    expect(message, rule.code).not.toMatch(/undefined|\[object|NaN/);
    expect(message.length, rule.code).toBeGreaterThan(10);
  }
});
