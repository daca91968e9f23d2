import { describe, expect, it } from 'vitest';
import type { SummaryItem } from '../../server/core/summary/summary.ts';
import { h } from '../../server/core/summary/view.ts';
import { makeServer, URI } from './made-up-server.ts';
import { hostPage, openPage } from './open-page.ts';
import { axes, sampleItems, view } from './sample-items.ts';

const host = hostPage();

const line = (id: string, text = id): SummaryItem => view(id, 'headline', h('p', {}, text));
const lines = '[data-section="headline"] [data-item]';

describe('patches', () => {
  it('are applied in order, sections stay apart, and empty sections do not show', async () => {
    let items = [line('a'), line('b'), line('c'), view('x', 'charts', h('p', {}, 'x'))];
    const { page, tell } = await openPage(
      host.browser,
      host.url,
      makeServer(() => items),
    );
    await page.getByText('x', { exact: true }).waitFor();
    expect(await page.locator(lines).allTextContents()).toEqual(['a', 'b', 'c']);
    expect(await page.locator('[data-section="cautions"]').isVisible()).toBe(false);

    items = [line('d'), line('c'), line('a', 'A'), view('x', 'charts', h('p', {}, 'x'))];
    await tell({ kind: 'stale', uri: URI });
    await page.getByText('A', { exact: true }).waitFor();
    expect(await page.locator(lines).allTextContents()).toEqual(['d', 'c', 'A']); // c was not sent again

    items = [line('a', 'A')];
    await tell({ kind: 'stale', uri: URI });
    await page.getByText('x', { exact: true }).waitFor({ state: 'detached' });
    expect(await page.locator(lines).allTextContents()).toEqual(['A']);
    expect(await page.locator('[data-section="charts"]').isVisible()).toBe(false);
  });

  it('move an item that is put elsewhere, as the same element', async () => {
    const { page, tell } = await openPage(
      host.browser,
      host.url,
      makeServer(() => [line('a'), line('b'), line('c')]),
    );
    await page.getByText('c', { exact: true }).waitFor();
    await page.locator('[data-item="a"]').evaluate((element) => element.setAttribute('data-kept', ''));
    const put = {
      kind: 'put',
      id: 'a',
      hash: 'new',
      section: 'headline',
      after: 'c',
      item: line('a'),
    } as const;
    await tell({ kind: 'changes', uri: URI, changes: { title: 'Moved', broken: false, patches: [put] } });
    await page.locator('.bar-title', { hasText: 'Moved' }).waitFor();
    expect(await page.locator(lines).allTextContents()).toEqual(['b', 'c', 'a']);
    expect(await page.locator('[data-kept]').count()).toBe(1);
  });

  it('say what is shown by its hash, so that the same machine sends nothing and touches nothing', async () => {
    const sent: number[] = [];
    const server = makeServer(() => sampleItems());
    const { page, tell, heard } = await openPage(host.browser, host.url, (message) => {
      const replies = server(message);
      for (const reply of replies) if (reply.kind === 'changes') sent.push(reply.changes.patches.length);
      return replies;
    });
    await page.locator('.wiring').waitFor();
    expect(sent).toEqual([sampleItems().length]);
    const touched = page.evaluate(
      () =>
        new Promise<number>((done) => {
          const watcher = new MutationObserver((changes) => done(changes.length));
          watcher.observe(document.body, {
            childList: true,
            subtree: true,
            attributes: true,
            characterData: true,
          });
          setTimeout(() => done(0), 600);
        }),
    );
    await tell({ kind: 'stale', uri: URI });
    expect(await touched).toBe(0);
    expect(sent).toEqual([sampleItems().length, 0]);
    const last = (await heard()).findLast((message) => message.kind === 'have');
    expect(last).toMatchObject({
      uri: URI,
      have: Object.fromEntries(sampleItems().map((item) => [item.id, JSON.stringify(item)])),
    });
  });

  it('change only what differs: focus, opened parts and scroll stay', async () => {
    const more = (text: string) => h('details', {}, h('summary', {}, 'More'), h('p', { tabindex: 0 }, text));
    const long = view(
      'long',
      'charts',
      h(
        'div',
        {},
        Array.from({ length: 80 }, (_, n) => h('p', {}, `row ${n}`)),
      ),
    );
    let items = [view('axes', 'headline', axes()), view('more', 'headline', more('one')), long];
    const { page, tell } = await openPage(
      host.browser,
      host.url,
      makeServer(() => items),
    );
    await page.locator('summary').click();
    await page.locator('text=one').focus();
    await page.evaluate(() => scrollTo(0, 40));
    items = [view('axes', 'headline', axes('640 /mm')), view('more', 'headline', more('two')), long];
    await tell({ kind: 'stale', uri: URI });
    await page.locator('text=two').waitFor();
    expect(await page.locator('[data-id="axis:X"]').textContent()).toContain('640 /mm');
    expect(await page.evaluate(() => [document.activeElement?.textContent, scrollY])).toEqual(['two', 40]);
    expect(await page.locator('details').getAttribute('open')).toBe('');
  });

  it('find rows again by what they are, and leave what page and person did to them', async () => {
    const table = (ids: readonly string[]) =>
      view(
        't',
        'headline',
        h(
          'table',
          {},
          h(
            'tbody',
            {},
            ids.map((id) => h('tr', { 'data-id': id, tabindex: 0 }, h('td', {}, id))),
          ),
        ),
      );
    let ids = ['a', 'b', 'c', 'd'];
    const { page, tell } = await openPage(
      host.browser,
      host.url,
      makeServer(() => [table(ids)]),
    );
    const rows = page.locator('tr[data-id]');
    await page.locator('[data-id="c"]').focus();
    await rows.evaluateAll((all) => {
      for (const row of all) row.setAttribute('data-was', row.textContent ?? '');
    });
    const shown = () =>
      rows.evaluateAll((all) => all.map((row) => `${row.textContent}${row.getAttribute('data-was')}`));
    for (const [next, wanted] of [
      [
        ['b', 'c', 'd'],
        ['bb', 'cc', 'dd'],
      ],
      [
        ['b', 'x', 'c', 'd'],
        ['bb', 'xnull', 'cc', 'dd'],
      ],
      [
        ['d', 'c', 'b'],
        ['dd', 'cc', 'bb'],
      ],
      [
        ['c', 'c', 'b'],
        ['cc', 'cnull', 'bb'],
      ],
    ] as const) {
      ids = [...next];
      await tell({ kind: 'stale', uri: URI });
      await expect.poll(shown).toEqual(wanted);
      if (next.length > 3) expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('c');
    }
  });

  it('are asked for one at a time, and answers about another machine are dropped', async () => {
    const { page, tell, heard } = await openPage(host.browser, host.url, (message) =>
      message.kind === 'ready' ? [{ kind: 'show', uri: URI, name: 'a' }] : [],
    );
    const asked = async () => (await heard()).filter(({ kind }) => kind === 'have').length;
    await expect.poll(asked).toBe(1);
    for (let n = 0; n < 5; n++) await tell({ kind: 'stale', uri: URI });
    expect(await asked()).toBe(1);
    const patches = (text: string) =>
      [
        { kind: 'put', id: 'a', hash: text, section: 'headline', after: null, item: line('a', text) },
      ] as const;
    const changes = { title: 'T', broken: false };
    await tell({ kind: 'changes', uri: 'file:///other', changes: { ...changes, patches: patches('other') } });
    expect(await asked()).toBe(1);
    await tell({ kind: 'changes', uri: URI, changes: { ...changes, patches: patches('own') } });
    await expect.poll(asked).toBe(2); // once for all that came meanwhile
    expect(await page.locator(lines).allTextContents()).toEqual(['own']);
  });

  it('say that the picture is old while the text is broken or the server silent', async () => {
    let broken = true;
    const { page, tell } = await openPage(host.browser, host.url, (message) =>
      makeServer(() => [line('a')], 'Half-hull router', broken)(message),
    );
    await page.locator('.notice', { hasText: 'errors' }).waitFor();
    broken = false;
    await tell({ kind: 'stale', uri: URI });
    await page.locator('.notice:visible').waitFor({ state: 'detached' });
    await tell({ kind: 'unavailable', uri: URI, why: 'The language server did not answer.' });
    await page.locator('.notice', { hasText: 'did not answer' }).waitFor();
    expect(await page.locator(lines).allTextContents()).toEqual(['a']);
  });
});

describe('the empty page', () => {
  it('says what to do, and shows the summary again once a machine is open', async () => {
    const server = makeServer(() => [line('a')]);
    const { page, tell, heard } = await openPage(host.browser, host.url, server);
    await page.locator(lines).waitFor();
    await tell({ kind: 'empty', closed: { uri: URI, name: 'half-hull.machine.yaml' } });
    await page.getByRole('button', { name: 'Open half-hull.machine.yaml' }).click();
    expect((await heard()).at(-1)).toEqual({ kind: 'open', uri: URI });
    expect(
      await page.locator('main, header').evaluateAll((all) => all.some((one) => one.checkVisibility())),
    ).toBe(false);
    await tell({ kind: 'empty', closed: null });
    await page.getByRole('button', { name: 'Find a machine' }).click();
    expect((await heard()).at(-1)).toEqual({ kind: 'pick' });
    await tell({ kind: 'show', uri: URI, name: 'half-hull.machine.yaml' });
    await page.locator(lines).waitFor();
    expect(await page.locator('.empty').isVisible()).toBe(false);
  });
});
