import { expect, it } from 'vitest';
import type { Drawing } from '../../server/core/summary/drawing/drawing.ts';
import { summarise } from '../../server/core/summary/summarise.ts';
import type { SummaryItem } from '../../server/core/summary/summary.ts';
import { h } from '../../server/core/summary/view.ts';
import { analyseTexts } from '../support/marked.ts';
import { makeServer, URI } from './made-up-server.ts';
import { hostPage, openPage } from './open-page.ts';
import { sampleItems, view } from './sample-items.ts';

const host = hostPage();

const HOSTILE = [
  '<img src=x onerror="document.title=1">',
  '</script><script>document.title=1</script>',
  '__proto__',
  'constructor',
  '"]\\',
  ' ',
  '\u202eabc\u0000',
  'x'.repeat(3000),
];

function hostileDrawing(): Drawing {
  const parts = HOSTILE.map((name) => ({
    id: `part:${name}`,
    name,
    title: name,
    partClass: name,
    place: name,
    terminals: HOSTILE.map((text) => ({
      id: `terminal:${name}.${text}`,
      name: text,
      group: text,
      wired: true,
    })),
  }));
  const links = HOSTILE.map((name, n) => ({
    id: `link:${name}`,
    from: `terminal:${name}.${HOSTILE[n]}`,
    to: `terminal:${HOSTILE[(n + 1) % HOSTILE.length]}.${name}`,
    kind: 'signal' as const,
    label: name,
    colour: name,
    cable: name,
  }));
  return {
    parts,
    links: [...links, { id: 'nowhere', from: 'terminal:a.b', to: 'terminal:c.d', kind: 'power' }],
  };
}

it('shows hostile names as text, in views and in the drawing', async () => {
  const items = (): SummaryItem[] => [
    ...HOSTILE.map((name) => view(name, 'headline', h('p', { 'data-id': name, title: name }, name))),
    { id: 'drawing', section: 'drawing', kind: 'drawing', drawing: hostileDrawing() },
  ];
  const { page, tell, heard, complaints } = await openPage(host.browser, host.url, makeServer(items));
  await page.locator('.wiring').waitFor();
  expect(await page.title()).toBe('Wiring summary');
  expect(await page.locator('[data-section="headline"] p').allTextContents()).toEqual(HOSTILE);
  expect(await page.locator('img, body script:not([nonce])').count()).toBe(0);
  expect(await page.locator('.wiring .part').count()).toBe(HOSTILE.length);
  expect(await page.locator('.wiring .link').count()).toBe(HOSTILE.length);
  for (const name of HOSTILE) await tell({ kind: 'mark', uri: URI, id: name });
  expect(await page.locator('.marked').textContent()).toBe(HOSTILE.at(-1));
  await page.locator('[data-section="headline"] p').nth(2).click();
  expect((await heard()).at(-1)).toEqual({ kind: 'go', uri: URI, id: '__proto__' });
  await tell({ kind: 'stale', uri: URI });
  await expect.poll(async () => (await heard()).at(-1)?.kind).toBe('have');
  const have = (await heard()).at(-1);
  expect(have?.kind === 'have' && Object.keys(have.have).sort()).toEqual([...HOSTILE, 'drawing'].sort());
  expect(complaints).toEqual([]);
});

it('takes no attribute that could do something', async () => {
  const attributes = {
    onclick: 'document.title=1',
    style: 'color: red',
    href: 'javascript:document.title=1',
    src: 'x',
    'data-good': 'yes',
    'aria-label': 'fine',
    fill: 'url(http://127.0.0.1/x)',
  };
  const tricks = h('p', attributes, 'Nothing happens.');
  const { page } = await openPage(
    host.browser,
    host.url,
    makeServer(() => [view('tricks', 'headline', tricks)]),
  );
  const shown = page.locator('[data-good]');
  await shown.waitFor();
  expect(await shown.evaluate((element) => element.getAttributeNames().sort())).toEqual([
    'aria-label',
    'data-good',
  ]);
});

it('lives under a policy that lets nothing else in, and never breaks it itself', async () => {
  const { page, complaints } = await openPage(
    host.browser,
    host.url,
    makeServer(() => sampleItems()),
  );
  await page.locator('.wiring').waitFor(); // laid out by a worker from a blob
  expect(complaints).toEqual([]);

  const refused = await page.evaluate(async () => {
    const seen: string[] = [];
    addEventListener('securitypolicyviolation', ({ effectiveDirective }) => seen.push(effectiveDirective));
    const add = (tag: string, attributes: Record<string, string>, text = ''): void => {
      const element = Object.assign(document.createElement(tag), { textContent: text });
      for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
      document.body.append(element);
    };
    add('script', {}, 'document.title = "run"');
    add('style', {}, 'body { color: red }');
    add('p', { style: 'color: red' });
    add('img', { src: 'data:image/png;base64,AAAA' });
    add('iframe', { src: '/page.css' });
    await fetch('http://127.0.0.1:9/').catch(() => undefined);
    await new Promise((done) => setTimeout(done, 200));
    return seen;
  });
  const kinds = [
    'connect-src',
    'frame-src',
    'img-src',
    'script-src-elem',
    'style-src-attr',
    'style-src-elem',
  ];
  expect([...new Set(refused)].sort()).toEqual(kinds);
  expect(await page.title()).toBe('Wiring summary');
});

/** A machine whose every name is what nobody should write, read by the product itself. */
function hostileMachine(): readonly SummaryItem[] {
  const names = [
    '<img src=x onerror=document.title=1>',
    '</svg><script>document.title=1</script>',
    '\u202eabc',
    `x${'y'.repeat(10_000)}`,
  ];
  const quote = (text: string) => JSON.stringify(text);
  const [a = '', b = '', c = '', d = ''] = names;
  const sheet = (partClass: string) =>
    `class: ${partClass}, part: ${quote(a)}, terminals: { ${quote(b)}: [V+, V-, A1] }, circuits: { ${quote('c<b>')}: { ${partClass === 'supply' ? 'power-out: [V+, V-], voltage: 24 V, current: 2 A' : 'power-in: [V+, V-], voltage: 20..30 V, current: 1 A'} }, in: { pulled-down-in: [A1, V-], does: ${quote(c)}, resistance: 4.7 kohm, on-above: 15 V, off-below: 5 V } }, settings: { ${quote(d.slice(0, 300))}: { is: none, choices: [${quote(a)}, b] } }`;
  const text = [
    `machine: ${quote(a)}`,
    `revision: ${quote(b)}`,
    `about: ${quote(d)}`,
    'parts:',
    ...names.map(
      (name, n) => `  ${quote(name)}: { ${sheet(n === 0 ? 'supply' : 'controller')}, at: ${quote(c)} }`,
    ),
    `  p1: { ${sheet('supply')} }`,
    `  p2: { ${sheet('controller')} }`,
    'wiring:',
    `  - { link: p1.V+ -> p2.V+, label: ${quote(a)}, wire: 1 mm2 BN, length: 1 m }`,
    `  - { cable: ${quote(b)}, wire: 2 x 1 mm2, links: [p1.V- -> p2.V- BU, p1.V+ -> p2.A1 WH] }`,
    `  - { link: p1.V- -> p2.V-, label: ${quote(d)} }`,
    `axes: { ${quote(a)}: { feed: ${quote(b)} }, X: { drive: ${quote(c)} } }`,
  ].join('\n');
  return summarise(analyseTexts(new Map([['hostile.machine.yaml', text]])).analysis).items;
}

it('shows a machine whose every name is hostile as text, in every section, and exports it so', async () => {
  const items = hostileMachine();
  expect(new Set(items.map(({ section }) => section)).size).toBeGreaterThan(5);
  const { page, heard, complaints } = await openPage(
    host.browser,
    host.url,
    makeServer(() => items),
  );
  await page.locator('.wiring').waitFor();
  expect(await page.title()).toBe('Wiring summary');
  expect(await page.locator('h1').textContent()).toBe('<img src=x onerror=document.title=1>');
  expect(await page.locator('img, iframe, body script:not([nonce])').count()).toBe(0);
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
  await page.getByRole('button', { name: 'Save page' }).click();
  await expect.poll(async () => (await heard()).at(-1)?.kind, { timeout: 20_000 }).toBe('save');
  const saved = (await heard()).at(-1);
  expect(complaints).toEqual([]);

  const context = await host.browser.newContext();
  const paper = await context.newPage();
  await paper.setContent(saved?.kind === 'save' ? saved.text : '');
  expect(await paper.locator('h1').textContent()).toBe('<img src=x onerror=document.title=1>');
  expect(await paper.locator('img, script, iframe').count()).toBe(0);
  expect(await paper.title()).toBe('Half-hull router: wiring summary');
});
