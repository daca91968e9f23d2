import { expect, it } from 'vitest';
import type { FromPage } from '../../client/features/summary/messages.ts';
import { exampleItems } from './example.ts';
import { makeServer, URI } from './made-up-server.ts';
import { hostPage, openPage } from './open-page.ts';

const host = hostPage();

async function open(items: () => ReturnType<typeof exampleItems> = () => exampleItems()) {
  const opened = await openPage(host.browser, host.url, makeServer(items, 'Fairground router'));
  await opened.page.locator('.wiring').waitFor();
  const last = async <Kind extends FromPage['kind']>(kind: Kind) =>
    (await opened.heard()).findLast(
      (message): message is Extract<FromPage, { kind: Kind }> => message.kind === kind,
    );
  return { ...opened, last };
}

it('sorts and filters the cut list, and keeps both over an edit', async () => {
  let items = exampleItems();
  const { page, tell } = await open(() => items);
  const list = page.locator('[data-item="cut-list"]');
  const shown = () =>
    list
      .locator('tbody tr:visible')
      .evaluateAll((rows) => rows.map((row) => row.children[3]?.textContent ?? ''));
  await list.getByRole('button', { name: 'Length' }).click();
  const lengths = (await shown()).map(Number.parseFloat).filter((length) => !Number.isNaN(length));
  expect(lengths.length).toBeGreaterThan(20);
  expect(lengths).toEqual(lengths.toSorted((a, b) => a - b));
  expect(await list.locator('th[aria-sort]').getAttribute('aria-sort')).toBe('ascending');
  await list.getByRole('searchbox').fill('logic-breaker bn');
  await expect.poll(async () => (await shown()).length).toBe(3);

  items = exampleItems(['length: 0.1 m, label: 103', 'length: 9 m, label: 103']);
  await tell({ kind: 'stale', uri: URI });
  await expect.poll(async () => (await shown()).at(-1)).toBe('9 m');
  expect(await shown()).toHaveLength(3);
});

it('keeps what was unfolded, sorted, filtered and chosen when the page is loaded anew', async () => {
  const { page } = await open();
  const list = page.locator('[data-item="cut-list"]');
  const rows = () => list.locator('tbody tr:visible').allTextContents();
  await list.getByRole('button', { name: 'Length' }).click();
  await list.getByRole('button', { name: 'Length' }).click();
  await list.getByRole('searchbox').fill('dc-plus');
  const loop = page.locator('[data-item="loop:panel.I1"]');
  await loop.locator('summary').click();
  await loop.getByRole('button', { name: 'Wire broken' }).click();
  const before = await rows();
  expect(before.length).toBeGreaterThan(3);
  await page.waitForTimeout(300); // the state is kept once the person has come to rest
  await page.reload();
  await page.locator('.wiring').waitFor();
  expect(await rows()).toEqual(before);
  expect(await list.locator('th[aria-sort]').getAttribute('aria-sort')).toBe('descending');
  expect(await list.getByRole('searchbox').inputValue()).toBe('dc-plus');
  expect(await loop.locator('details').getAttribute('open')).toBe('');
  expect(await loop.getAttribute('data-shown')).toBe('broken');
  expect(await page.locator('details[open]').count()).toBe(1);
  expect(await loop.getByRole('button', { name: 'Wire broken' }).getAttribute('aria-pressed')).toBe('true');

  // What is given back as it was is not kept.
  await list.getByRole('button', { name: 'Length' }).click();
  await list.getByRole('searchbox').fill('');
  await loop.locator('summary').click();
  await page.waitForTimeout(300);
  await page.reload();
  await page.locator('.wiring').waitFor();
  expect(await list.locator('th[aria-sort]').count()).toBe(0);
  expect(await page.locator('details[open]').count()).toBe(0);
});

it('tells in a card what is known of a terminal and of a wire in the drawing, with the working', async () => {
  const { page } = await open();
  await page.getByRole('button', { name: 'Fit: show the whole drawing' }).click();
  const card = page.locator('.card');
  await page.locator('.wiring [data-id="terminal:panel.I1"] .terminal-hit').hover();
  await card.filter({ hasText: 'Terminal I1 of panel' }).waitFor();
  const terminal = (await card.textContent()) ?? '';
  for (const said of [
    /Goes to: near-x\.C2/,
    /Wire: 2 x 0\.5 mm2 WH/,
    /At rest: 24 V.*on/,
    /Operated: 0 V.*off/,
    /Wire broken: 0 V/,
  ])
    expect(terminal).toMatch(said);

  const box = await page.locator('.wiring [data-label="301"] .hit').evaluate((hit) => {
    const path = hit as SVGPathElement;
    const spot = () =>
      path.getPointAtLength(path.getTotalLength() / 3).matrixTransform(path.getScreenCTM() ?? undefined);
    scrollBy(0, spot().y - innerHeight / 2);
    return { x: spot().x, y: spot().y };
  });
  await page.mouse.move(0, 0);
  await page.mouse.move(box.x, box.y, { steps: 3 });
  await card.filter({ hasText: 'motor-psu.V+ to dc-plus.T1' }).waitFor();
  const wire = (await card.textContent()) ?? '';
  for (const said of [
    /Length: 0\.3 m/,
    /Current: 9\.733 A \(.*= 9\.73/,
    /May carry: 24 A/,
    /Loses: .*ohm × .* A = /,
  ])
    expect(wire).toMatch(said);
  const at = await card.boundingBox();
  expect(Math.hypot((at?.x ?? 0) - box.x, (at?.y ?? 0) - box.y)).toBeLessThan(300); // beside the pointer
  await page.keyboard.press('Escape');
  expect(await card.isHidden()).toBe(true);
  expect(await page.locator('.wiring title').count()).toBe(0); // no second card by the browser
});

it('copies what is shown, and saves whole tables as CSV', async () => {
  const { page, last } = await open();
  const list = page.locator('[data-item="cut-list"]');
  await list.getByRole('searchbox').fill('dc-plus');
  await list.getByRole('button', { name: 'Copy' }).click();
  const copied = (await last('copy'))?.text.trimEnd().split('\n') ?? [];
  expect(copied[0]).toBe('Label\tWire\tColour\tLength\tFrom\tTo');
  expect(copied).toHaveLength(7);
  await list.getByRole('button', { name: 'Save as CSV' }).click();
  const saved = await last('save');
  expect(saved?.name).toBe('fairground-router-cut-list.csv');
  expect(saved?.text.split('\r\n')).toContain('301,4 mm2,BK,0.3 m,motor-psu.V+,dc-plus.T1');
});

it('saves pictures and the drawing as SVG, and the page as one file with the date', async () => {
  const { page, last, complaints } = await open();
  await page.locator('[data-item="motion:X"]').getByRole('button', { name: 'Save as SVG' }).click();
  const picture = await last('save');
  expect(picture?.name).toBe('fairground-router-motion-x.svg');
  expect(picture?.text).toMatch(/^<\?xml .*torque available/s);
  await page.getByRole('button', { name: 'Save the drawing as SVG' }).click();
  await expect.poll(async () => (await last('save'))?.name).toBe('fairground-router-drawing.svg');
  await page.getByRole('button', { name: 'Save page' }).click();
  await expect
    .poll(async () => (await last('save'))?.name, { timeout: 20_000 })
    .toBe('fairground-router-wiring.html');
  const whole = (await last('save'))?.text ?? '';
  expect(whole).toContain(`<span>${new Date().getFullYear()}-`);
  expect(whole.match(/<figure class="item drawing on-screen"/g)).toHaveLength(6); // everything, and each group by itself, power in two
  expect(whole.match(/<figure class="item drawing on-paper"/g)?.length).toBeGreaterThan(6);
  expect(whole).not.toMatch(/<script|<button/);
  await page.getByRole('button', { name: 'Markdown' }).click();
  await expect.poll(async () => (await last('save'))?.name).toBe('fairground-router-wiring.md');
  expect(complaints).toEqual([]);
});

it('shows the working of a number where the pointer rests, and what a finding says at its thing', async () => {
  const { page } = await open(() =>
    exampleItems(['microsteps: 8, phase-current: 3.2 A', 'microsteps: 16, phase-current: 3.2 A']),
  );
  await page.locator('tr[data-id="axis:X"] td').first().hover();
  await page.locator('.card', { hasText: /1:1|10 mm/ }).waitFor();
  const flagged = page.locator('.finding[data-about]').first();
  const about = await flagged.getAttribute('data-about');
  const says = (await flagged.locator('.says').textContent()) ?? 'none';
  const thing = page.locator(`tr[data-id="${about}"] th, h3[data-id="${about}"]`).first();
  await thing.hover();
  await page.locator('.card', { hasText: says.slice(0, 40) }).waitFor();
});

it('asks for a cure on click, and only for that', async () => {
  const { page, last, heard } = await open(() =>
    exampleItems(['microsteps: 8, phase-current: 3.2 A', 'microsteps: 16, phase-current: 3.2 A']),
  );
  const fix = page.locator('.fixes button').first();
  const title = await fix.textContent();
  await fix.click();
  expect(await last('fix')).toEqual({
    kind: 'fix',
    uri: URI,
    id: expect.stringMatching(/^finding:\d+$/),
    title,
  });
  expect((await heard()).filter(({ kind }) => kind === 'go')).toEqual([]);
});
