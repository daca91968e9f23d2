import fs from 'node:fs';
import path from 'node:path';
import { expect, test, vi } from 'vitest';
import { readExamples } from '../../support/examples.ts';
import { ROOT } from '../../support/lsp-client.ts';
import { readMarked, splitFiles, type Texts } from '../../support/marked.ts';
import { englishLeft, pseudoWords, wordsOfTexts } from '../../support/pseudo.ts';
import { FORMAT_WORDS } from './known.ts';

/** No finding and no fix depends on a text: in a language that nobody speaks they are the same, letter by letter. */

const FIXTURES = path.join(ROOT, 'tests/findings/fixtures');
const FINDINGS = path.join(ROOT, 'server/core/findings');

/** Texts with every kind of finding: examples, fixtures, and what the pages of findings show as wrong. */
function readSamples(): { name: string; texts: Texts }[] {
  const examples = readExamples().map(({ name, machine, files }) => ({
    name,
    texts: new Map([[machine, files.get(machine) ?? ''], ...files]),
  }));
  const fixtures = fs
    .readdirSync(FIXTURES)
    .filter((file) => file.endsWith('.marked'))
    .map((file) => ({
      name: file,
      texts: readMarked(fs.readFileSync(path.join(FIXTURES, file), 'utf8'), file.replace(/\.marked$/, ''))
        .texts,
    }));
  const pages = fs
    .readdirSync(FINDINGS, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('page.md'))
    .flatMap((file) =>
      [
        ...fs.readFileSync(path.join(FINDINGS, file), 'utf8').matchAll(/^```yaml wrong\n([\s\S]*?)^```$/gm),
      ].map(([, text = '']) => ({ name: file, texts: splitFiles(text, 'example.machine.yaml') })),
    );
  return [...examples, ...fixtures, ...pages];
}

/** Everything that is found in the samples, in one language, by a program of its own. */
async function findIn(words: Readonly<Record<string, string>> | undefined) {
  vi.resetModules();
  const { speak } = await import('../../../server/core/language/say.ts');
  speak(words);
  const { analyseTexts, applyFix } = await import('../../support/marked.ts');
  return samples.map(({ texts }) => {
    const { analysis, findings } = analyseTexts(texts);
    return {
      facts: findings.map(({ code, severity, at, fixes = [] }) => ({
        code,
        severity,
        from: at.from,
        to: at.to,
        fixes: fixes.map((fix) => ({ safe: fix.safe, text: applyFix(analysis, fix) })),
      })),
      said: findings.flatMap(({ title, message, related = [], fixes = [] }) => [
        title,
        message,
        ...related.map(({ note }) => note),
        ...fixes.map((fix) => fix.title),
      ]),
      known: wordsOfTexts(texts.values()),
    };
  });
}

const samples = readSamples();
const english = await findIn(undefined);
const pseudo = await findIn(pseudoWords());

test('there is much to compare', () => {
  expect(samples.length).toBeGreaterThan(150);
  expect(pseudo.flatMap(({ said }) => said).length).toBeGreaterThan(500);
});

test('findings, their places and what their fixes make of the text are the same', () => {
  for (const [index, { facts }] of english.entries())
    expect(pseudo[index]?.facts, samples[index]?.name).toEqual(facts);
});

test('no English is left', () => {
  for (const { said, known } of pseudo)
    expect(englishLeft(said, new Set([...known, ...FORMAT_WORDS]))).toEqual([]);
});
