import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { ROOT } from '../support/lsp-client.ts';
import { readBlocks } from './blocks.ts';
import { runPage } from './run-page.ts';

const DOCS = path.join(ROOT, 'docs');
const readPage = (name: string): string => fs.readFileSync(path.join(DOCS, name), 'utf8');

/** Made by generators whose own tests execute what they show. */
const MADE = new Set([
  'format.md',
  'command-line.md',
  'values.md',
  'settings.md',
  'findings.md',
  'library.md',
]);

/** Pages with blocks, which are executed from top to bottom; what a page shows is what comes out. */
const GUIDES = fs
  .readdirSync(DOCS)
  .filter((name) => name.endsWith('.md') && !MADE.has(name))
  .filter((name) => readBlocks(readPage(name)).length > 0);

test('there are guides', () =>
  expect(GUIDES).toEqual(
    expect.arrayContaining(['tutorial.md', 'troubleshooting.md', 'writing-a-sheet.md']),
  ));

test.each(GUIDES)('%s does what it says', async (name) => {
  const broken = await runPage(readPage(name));
  expect(broken.map(({ line, what }) => `docs/${name}:${line}: ${what}`).join('\n\n')).toBe('');
});

test('the quick start of the extension page does what it says', async () => {
  const page = fs.readFileSync(path.join(ROOT, 'README.md'), 'utf8');
  const blocks = readBlocks(page);
  expect(blocks.map(({ language, file }) => file ?? language)).toEqual(['engraver.machine.yaml', 'console']);
  const broken = await runPage(page);
  expect(broken.map(({ line, what }) => `README.md:${line}: ${what}`).join('\n\n')).toBe('');
});

test('the tutorial takes twelve steps', () =>
  expect([...readPage('tutorial.md').matchAll(/^## (\d+)\. /gm)].map(([, number]) => Number(number))).toEqual(
    Array.from({ length: 12 }, (_, index) => index + 1),
  ));

test.each([
  ['another number', '1 file checked: 1 error, 0 warnings, 0 hints.'],
  ['a line too many', '1 file checked: 0 errors, 0 warnings, 0 hints.\nand more'],
  ['nothing', ''],
])('a page that shows %s is noticed', async (_, shown) => {
  const page = `\`\`\`yaml toy.machine.yaml\nmachine: Toy\n\`\`\`\n\n\`\`\`console\n$ fettle check toy.machine.yaml\n${shown}\n\`\`\`\n`;
  expect(await runPage(page)).toHaveLength(1);
});
