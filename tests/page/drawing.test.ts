import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { Drawing } from '../../server/core/summary/drawing/drawing.ts';
import type { SummaryItem } from '../../server/core/summary/summary.ts';
import { exampleItems } from './example.ts';
import { makeServer, URI } from './made-up-server.ts';
import { hostPage, openPage } from './open-page.ts';
import { sampleDrawing } from './sample.ts';
import { sampleItems } from './sample-items.ts';

const host = hostPage();

const item = (drawing: Drawing): SummaryItem => ({
  id: 'drawing',
  section: 'drawing',
  kind: 'drawing',
  drawing,
});
const scale = async (page: Page): Promise<number> =>
  Number.parseFloat((await page.locator('.scale').textContent()) ?? '');
const viewBox = (page: Page): Promise<string | null> => page.locator('.wiring').getAttribute('viewBox');
const boxOf = (page: Page, id: string) => page.locator(`.wiring [data-id="${id}"]`).boundingBox();

async function openDrawing(drawing: () => Drawing = sampleDrawing) {
  const opened = await openPage(
    host.browser,
    host.url,
    makeServer(() => [item(drawing())]),
  );
  await opened.page.locator('.wiring').waitFor();
  return opened;
}

describe('the drawing', () => {
  it('shows every part, terminal and link, with what they are in words', async () => {
    const { page } = await openDrawing();
    const { parts, links } = sampleDrawing();
    expect(await page.locator('.wiring .part').count()).toBe(parts.length);
    expect(await page.locator('.wiring .terminal').count()).toBe(
      parts.flatMap((part) => part.terminals).length,
    );
    expect(await page.locator('.wiring .link').count()).toBe(links.length);
    const panel = page.locator('[data-id="part:panel"]');
    expect(await panel.getAttribute('aria-label')).toMatch(
      /^panel, Four-axis panel controller · front door, \d+ of 30 terminals wired$/,
    );
    expect(await page.locator('[data-id="link:13"]').getAttribute('aria-label')).toBe(
      'logic-psu.V+ to panel.DC+, W10 RD, supply',
    );
    expect(
      await page
        .locator('[data-label="PX"] .wire')
        .evaluateAll((all) => all.map((wire) => wire.getAttribute('stroke'))),
    ).toEqual(['#f7f7f4', '#1f5fc4']);
  });

  it('zooms and pans by keys, keeps both over an edit, and fits again', async () => {
    let drawing = sampleDrawing();
    const { page, tell } = await openDrawing(() => drawing);
    const fitted = await scale(page);
    await page.locator('.frame').focus();
    await page.keyboard.press('+');
    await page.keyboard.press('+');
    await page.keyboard.press('ArrowRight');
    expect(await scale(page)).toBeGreaterThan(fitted * 1.5);
    const before = await boxOf(page, 'part:panel');
    const old = await page.locator('.wiring').elementHandle();

    drawing = {
      ...drawing,
      parts: [
        ...drawing.parts,
        { id: 'part:lamp', name: 'lamp', title: 'Lamp', partClass: 'load', terminals: [] },
      ],
    };
    await tell({ kind: 'stale', uri: URI });
    await page.locator('[data-id="part:lamp"]').waitFor();
    expect(await old?.evaluate((svg) => svg.isConnected)).toBe(false);
    const after = await boxOf(page, 'part:panel');
    expect(Math.hypot((after?.x ?? 0) - (before?.x ?? 0), (after?.y ?? 0) - (before?.y ?? 0))).toBeLessThan(
      60,
    );
    expect(await scale(page)).toBeGreaterThan(fitted * 1.5);

    await page.locator('.frame').focus();
    await page.keyboard.press('0');
    expect(Math.abs((await scale(page)) - fitted)).toBeLessThan(10);
  });

  it('starts at its heart, legibly, when the whole of it would be too small to read', async () => {
    const { parts, links } = sampleDrawing();
    const many = [1, 2, 3, 4].flatMap((copy) =>
      parts.map((part) => ({
        ...part,
        id: `${part.id}-${copy}`,
        terminals: part.terminals.map((terminal) => ({ ...terminal, id: `${terminal.id}-${copy}` })),
      })),
    );
    const { page } = await openDrawing(() => ({ parts: [...many, ...parts], links }));
    expect(await scale(page)).toBe(45);
    const [panel, frame] = [await boxOf(page, 'part:panel'), await page.locator('.frame').boundingBox()];
    const middle = (box: typeof panel) => [
      (box?.x ?? 0) + (box?.width ?? 0) / 2,
      (box?.y ?? 0) + (box?.height ?? 0) / 2,
    ];
    expect(middle(panel).map(Math.round)).toEqual(middle(frame).map(Math.round));
    await page.getByRole('button', { name: 'Fit: show the whole drawing' }).click();
    expect(await scale(page)).toBeLessThan(45);
  });

  it('zooms at the pointer by wheel and control key, and leaves the plain wheel to the page', async () => {
    const { page } = await openDrawing();
    const panel = await boxOf(page, 'part:panel');
    const [x, y] = [(panel?.x ?? 0) + 20, (panel?.y ?? 0) + 10];
    await page.mouse.move(x, y);
    const before = await viewBox(page);
    await page.mouse.wheel(0, 200);
    expect(await viewBox(page)).toBe(before);
    await page.evaluate(() => scrollTo(0, 0));
    await page.mouse.move(x, y);
    await page.keyboard.down('Control');
    await page.mouse.wheel(0, -300);
    await page.keyboard.up('Control');
    await expect.poll(() => scale(page)).toBeGreaterThan(60);
    const after = await boxOf(page, 'part:panel');
    expect(after?.x).toBeLessThan(x); // still under the pointer
    expect((after?.x ?? 0) + (after?.width ?? 0)).toBeGreaterThan(x);
  });

  it('is dragged without taking the end of the drag for a click', async () => {
    const { page, heard } = await openDrawing();
    const panel = await boxOf(page, 'part:panel');
    const [x, y] = [(panel?.x ?? 0) + 30, (panel?.y ?? 0) + 8];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x - 70, y + 30, { steps: 5 });
    await page.mouse.up();
    const moved = await boxOf(page, 'part:panel');
    expect(Math.round((moved?.x ?? 0) - (panel?.x ?? 0))).toBeCloseTo(-70, -1);
    expect((await heard()).filter(({ kind }) => kind === 'go')).toEqual([]);
    await page.mouse.click(x - 70, y + 30);
    expect((await heard()).at(-1)).toEqual({ kind: 'go', uri: URI, id: 'part:panel' });
  });

  it('traces a net from end to end, and lets go of it', async () => {
    const { page } = await openDrawing();
    await page.locator('[data-id="terminal:panel.XP"] text').click();
    const traced = page.locator('.link.traced');
    expect(await traced.evaluateAll((links) => links.map((link) => link.getAttribute('data-label')))).toEqual(
      ['PX'],
    );
    expect(
      await page
        .locator('.part.traced')
        .evaluateAll((all) => all.map((part) => part.getAttribute('data-name'))),
    ).toEqual(['panel', 'drive-x']);
    await page.locator('.frame').focus();
    await page.keyboard.press('Escape');
    expect(await page.locator('.tracing, .traced').count()).toBe(0);
  });

  it('traces by the keyboard, from one terminal of a part to the next', async () => {
    const { page } = await openDrawing();
    await page.locator('.part[data-id="part:probe-1"]').focus();
    const traced = () =>
      page.locator('.link.traced').evaluateAll((all) => all.map((link) => link.getAttribute('data-label')));
    await page.keyboard.press('t');
    expect(await page.locator('.drawing-note').textContent()).toBe('Terminal BN of probe-1: traced, 1 of 3.');
    expect(await traced()).toContain('T1');
    await page.keyboard.press('t');
    expect(await traced()).toEqual(['T2']);
    await page.keyboard.press('t');
    await page.keyboard.press('t');
    expect(await traced()).toContain('T1');
    await page.keyboard.press('Escape');
    expect(await traced()).toEqual([]);
    expect(await page.locator('.drawing-note').textContent()).toBe('');
  });

  it('finds parts, terminals and labels, and goes from one to the next', async () => {
    const { page } = await openDrawing();
    const field = page.getByRole('searchbox');
    await field.fill('drive-');
    expect(await page.locator('.found:not([role=status])').count()).toBe(4);
    expect(await page.locator('.search [role=status]').textContent()).toBe('1 of 4');
    await field.press('Enter');
    expect(await page.locator('.search [role=status]').textContent()).toBe('2 of 4');
    await field.press('Shift+Enter');
    await field.press('Shift+Enter');
    expect(await page.locator('.search [role=status]').textContent()).toBe('4 of 4');
    await field.fill('no such thing');
    expect(await page.locator('.search [role=status]').textContent()).toBe('none');
  });

  it('hides and shows the links of a kind, and remembers it over a reload', async () => {
    const { page } = await openDrawing();
    const motor = page.getByRole('button', { name: 'motor' });
    const display = () =>
      page
        .locator('.link.kind-motor')
        .first()
        .evaluate((link) => getComputedStyle(link).display);
    expect(await display()).not.toBe('none');
    await motor.click();
    expect(await display()).toBe('none');
    await page.waitForTimeout(300); // the state is kept once the person has come to rest
    await page.reload();
    await page.locator('.wiring').waitFor();
    expect(await display()).toBe('none');
    expect(await page.getByRole('button', { name: 'motor' }).getAttribute('aria-pressed')).toBe('false');
  });

  it('shows one group of links by itself, folds a part, and remembers both over a reload', async () => {
    const sample = sampleDrawing();
    const links = sample.links.map((link) => ({
      ...link,
      group: link.kind === 'motor' ? ('axes' as const) : ('power' as const),
    }));
    const { page } = await openDrawing(() => ({ ...sample, links }));
    await page.getByRole('button', { name: 'Axes', exact: true }).click();
    await expect.poll(() => page.locator('.wiring .link').count(), { timeout: 15_000 }).toBe(19);
    expect(await page.locator('.wiring .link:not(.kind-motor)').count()).toBe(0);
    await page.locator('[data-id="part:drive-x"] .fold').click();
    await page.locator('[data-id="part:drive-x"][data-folded]').waitFor();
    expect(await page.locator('[data-id="part:drive-x"] .terminal').count()).toBe(0);
    expect(await page.locator('.wiring .link').count()).toBe(19); // its wires join at its head
    await page.waitForTimeout(300);
    await page.reload();
    await page.locator('[data-id="part:drive-x"][data-folded]').waitFor();
    expect(await page.locator('.wiring .link').count()).toBe(19);
    await page.locator('[data-id="part:drive-x"]').focus();
    await page.keyboard.press('f');
    await page.locator('[data-id="part:drive-x"]:not([data-folded])').waitFor();
    await page.getByRole('button', { name: 'All', exact: true }).click();
    await expect
      .poll(() => page.locator('.wiring .link').count(), { timeout: 15_000 })
      .toBe(sample.links.length);
  });

  it('traces a signal through what it passes, from end to end', async () => {
    const sample = sampleDrawing();
    const way = sample.links.filter(({ from, to }) => /stop-x-far/.test(from + to)).map(({ id }) => id);
    const { page } = await openDrawing(() => ({ ...sample, ways: [way] }));
    await page.locator('[data-id="terminal:panel.XF"] text').click();
    expect(
      await page
        .locator('.link.traced')
        .evaluateAll((all) => all.map((link) => link.getAttribute('data-id'))),
    ).toEqual(way);
    expect(
      await page
        .locator('.net:not(.traced)')
        .first()
        .evaluate((net) => Number(getComputedStyle(net).opacity)),
    ).toBeLessThan(0.5);
  });

  it('traces an input that is pulled up inside through its contact and back to its own return', async () => {
    const items = exampleItems();
    const { page } = await openPage(
      host.browser,
      host.url,
      makeServer(() => items),
    );
    await page.locator('[data-id="terminal:panel.B1"] text').click({ timeout: 30_000 });
    const ends = await page
      .locator('.link.traced')
      .evaluateAll((all) =>
        all.map((link) => `${link.getAttribute('data-from')} ${link.getAttribute('data-to')}`),
      );
    expect(ends.toSorted()).toEqual([
      'terminal:panel.B1 terminal:start-button.C1',
      'terminal:start-button.C2 terminal:panel.GB',
    ]);
  });

  it('repaints a changed colour without laying out anew', async () => {
    let drawing = sampleDrawing();
    const { page, tell } = await openDrawing(() => drawing);
    const places = () =>
      page.locator('.part').evaluateAll((all) => all.map((part) => part.getAttribute('transform')));
    const before = await places();
    drawing = {
      ...drawing,
      links: drawing.links.map((link) => (link.label === 'DX' ? { ...link, colour: 'VT' } : link)),
    };
    const took = page.evaluate(async () => {
      const started = performance.now();
      const isNew = () => document.querySelector('[data-label="DX"] [stroke="#7d3fa8"]') !== null;
      while (!isNew()) await new Promise((done) => requestAnimationFrame(done));
      return performance.now() - started;
    });
    await tell({ kind: 'stale', uri: URI });
    expect(await took).toBeLessThan(400); // with the way from the browser to this test and back
    expect(await places()).toEqual(before);
  });

  it('draws only the newest of several changes', async () => {
    let count = 0;
    const drawing = (): Drawing => ({
      links: [],
      parts: [{ id: `part:p${count}`, name: `p${count}`, title: '', partClass: 'load', terminals: [] }],
    });
    const { page, tell } = await openDrawing(drawing);
    for (count = 1; count < 12; count++) await tell({ kind: 'stale', uri: URI });
    count = 12;
    await tell({ kind: 'stale', uri: URI });
    await page.locator('[data-id="part:p12"]').waitFor();
    await page.waitForTimeout(300);
    expect(await page.locator('.wiring').count()).toBe(1);
    expect(await page.locator('.part').getAttribute('data-id')).toBe('part:p12');
  });

  it('says so when it cannot be laid out, and keeps the rest of the page', async () => {
    const opened = await openPage(host.browser, 'about:blank');
    await opened.page.route('**/elk-worker.js', (route) => route.fulfill({ status: 500, body: '' }));
    await opened.page.goto(host.url);
    await opened.tell({ kind: 'show', uri: URI, name: 'a' });
    const put = {
      kind: 'put',
      id: 'drawing',
      hash: '1',
      section: 'drawing',
      after: null,
      item: item(sampleDrawing()),
    } as const;
    await opened.tell({ kind: 'changes', uri: URI, changes: { title: 'T', broken: false, patches: [put] } });
    await opened.page.locator('.drawing-note', { hasText: 'could not be loaded (500)' }).waitFor();
  });
});

describe('the way between page and text', () => {
  it('marks what the cursor stands on, and scrolls only when none of it is in sight', async () => {
    const { page, tell } = await openPage(
      host.browser,
      host.url,
      makeServer(() => sampleItems()),
    );
    await page.locator('.wiring').waitFor();
    const top = () => page.evaluate(() => scrollY);
    await tell({ kind: 'mark', uri: URI, id: 'axis:Y' });
    expect(await page.locator('.marked').count()).toBe(1);
    expect(await top()).toBe(0);
    await page.setViewportSize({ width: 1100, height: 420 });
    await tell({ kind: 'mark', uri: URI, id: 'part:drive-a' }); // in the drawing, further down, and in a chart
    expect(await page.locator('.marked').count()).toBe(2);
    await expect.poll(top).toBeGreaterThan(100);
    const there = await top();
    await tell({ kind: 'mark', uri: URI, id: 'part:drive-z' });
    expect(await top()).toBe(there);
    await tell({ kind: 'mark', uri: URI, id: null });
    expect(await page.locator('.marked').count()).toBe(0);
  });

  it('keeps scroll and ticks over a reload of the page', async () => {
    const { page } = await openPage(
      host.browser,
      host.url,
      makeServer(() => sampleItems()),
    );
    await page.locator('.wiring').waitFor();
    await page.getByRole('checkbox').click();
    expect(await page.getByRole('checkbox').getAttribute('aria-checked')).toBe('true');
    await page.evaluate(() => scrollTo(0, 700));
    await page.waitForTimeout(300);
    await page.reload();
    await page.locator('.wiring').waitFor();
    expect(await page.evaluate(() => scrollY)).toBe(700);
    expect(await page.getByRole('checkbox').getAttribute('aria-checked')).toBe('true');
  });

  it('works by keyboard alone: to a section, to a row, and with Enter into the text', async () => {
    const { page, heard } = await openPage(
      host.browser,
      host.url,
      makeServer(() => sampleItems()),
    );
    await page.locator('.wiring').waitFor();
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Wiring drawing');
    await page.keyboard.press('Enter');
    await expect.poll(() => page.evaluate(() => scrollY)).toBeGreaterThan(100);
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('section-drawing');
    await page.locator('[data-id="axis:Y"]').focus();
    await page.keyboard.press('Enter');
    expect((await heard()).at(-1)).toEqual({ kind: 'go', uri: URI, id: 'axis:Y' });
    await page.locator('.part[data-id="part:panel"]').focus();
    await page.keyboard.press('Enter');
    expect((await heard()).at(-1)).toEqual({ kind: 'go', uri: URI, id: 'part:panel' });
  });
});
