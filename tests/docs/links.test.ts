import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { ROOT } from '../support/lsp-client.ts';

const PAGES = fs
  .globSync(['*.md', 'docs/**/*.md', 'examples/*/*.md'], { cwd: ROOT })
  .map((page) => page.split(path.sep).join('/'))
  .sort();

test('there are pages', () => expect(PAGES.length).toBeGreaterThan(100));

test.each(PAGES)('the links of %s lead somewhere', (page) => {
  const text = fs.readFileSync(path.join(ROOT, page), 'utf8');
  expect(linksOf(text).flatMap((link) => whyDead(page, link))).toEqual([]);
});

/** The targets of links and images, without those in code. */
function linksOf(text: string): string[] {
  const prose = text.replace(/^```[\s\S]*?^```/gm, '').replace(/`[^`\n]*`/g, '``');
  return [...prose.matchAll(/\]\(([^)\s]+)\)/g)].map(([, target = '']) => target);
}

function whyDead(page: string, link: string): string[] {
  if (/^https:\/\//.test(link)) return []; // outside; a test that needs a network would fail for others' reasons
  const [file = '', place] = link.split('#');
  const target = file === '' ? page : path.posix.join(path.posix.dirname(page), file);
  if (!fs.existsSync(path.join(ROOT, target))) return [`${link}: there is no ${target}`];
  if (place === undefined) return [];
  const headings = fs.readFileSync(path.join(ROOT, target), 'utf8').matchAll(/^#+ (.+)$/gm);
  return [...headings].some(([, heading = '']) => anchorOf(heading) === place)
    ? []
    : [`${link}: ${target} has no heading for it`];
}

/** How Git hosts and VS Code name a heading: small letters, no signs, hyphens for blanks. */
function anchorOf(heading: string): string {
  return heading
    .toLowerCase()
    .replace(/[^\p{L}\p{N} _-]/gu, '')
    .trim()
    .replaceAll(' ', '-');
}
