import fs from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { ROOT } from '../support/lsp-client.ts';
import { readPages, type SitePage } from './pages.ts';

const SITE = path.join(ROOT, 'site');
let pages: ReadonlyMap<string, SitePage>;
beforeAll(() => {
  pages = readPages(SITE);
});

/** Everything that people read, from the project's folder. */
const WRITTEN = fs.globSync(
  ['README.md', 'CHANGELOG.md', 'DEVELOPERS.md', 'docs/**/*.md', 'examples/*/*.md'],
  {
    cwd: ROOT,
  },
);

test('every page that is written is on the site, and no other', () => {
  expect(WRITTEN.length).toBeGreaterThan(150);
  const wanted = WRITTEN.map((file) =>
    file.replace(/(^|\/)README\.md$/, '$1index.html').replace(/\.md$/, '.html'),
  );
  expect([...pages.keys()].sort()).toEqual(wanted.sort());
});

test('every page has a title, a heading, the menu, and a place in it', () => {
  const odd = [...pages].filter(
    ([, { html }]) =>
      !/<title>[^<]{3,}<\/title>/.test(html) || !/<h1 id="[^"]+">/.test(html) || !/<nav id="menu"/.test(html),
  );
  expect(odd.map(([address]) => address)).toEqual([]);
  const lost = [...pages].filter(
    ([address, { html }]) => !/aria-current/.test(html) && !/^docs\/index\.html$/.test(address),
  );
  expect(lost.map(([address]) => address)).toEqual([]);
});

test('every link, image, script and anchor leads somewhere', () => {
  let looked = 0;
  const dead = [...pages].flatMap(([address, { targets }]) =>
    targets.flatMap((target) => {
      looked += 1;
      const why = whyDead(address, target);
      return why ? [`${address}: ${target}: ${why}`] : [];
    }),
  );
  expect(looked).toBeGreaterThan(4000);
  expect(dead).toEqual([]);
});

test('no anchor stands twice on a page', () => {
  const twice = [...pages].flatMap(([address, { anchors, html }]) =>
    [...html.matchAll(/ id="([^"]+)"/g)].length === anchors.size ? [] : [address],
  );
  expect(twice).toEqual([]);
});

describe('nothing is fetched from elsewhere', () => {
  test('by a page', () => {
    const outside = [...pages].flatMap(([address, { html }]) =>
      [
        ...html.matchAll(
          /<(?:script|link|img|iframe|video|source)\b[^>]*(?:src|href)="((?:https?:)?\/\/[^"]*)/g,
        ),
      ].map(([, target]) => `${address}: ${target}`),
    );
    expect(outside).toEqual([]);
  });

  test.each(['site.css', 'search.js'])('by %s', (name) => {
    const text = fs.readFileSync(path.join(SITE, name), 'utf8');
    expect(text.length).toBeGreaterThan(1000);
    const ways = /@import|url\(|\bfetch\(\s*["'`]|XMLHttpRequest|WebSocket|sendBeacon|["'`](?:https?:)?\/\//g;
    expect([...text.matchAll(ways)].map(({ index }) => text.slice(index - 40, index + 40))).toEqual([]);
  });
});

/** Why a link of a page leads nowhere; undefined when it does not. What is outside is not asked for: a test has no network. */
function whyDead(address: string, target: string): string | undefined {
  if (/^https:\/\//.test(target)) return undefined;
  const [file = '', anchor] = target.split('#');
  const place = file === '' ? address : path.posix.join(path.posix.dirname(address), file);
  if (place.startsWith('..')) return 'outside of the site';
  const page = pages.get(place);
  if (!page && !fs.statSync(path.join(SITE, place), { throwIfNoEntry: false })?.isFile())
    return 'no such file';
  return anchor !== undefined && !page?.anchors.has(decodeURIComponent(anchor))
    ? 'no such anchor'
    : undefined;
}
