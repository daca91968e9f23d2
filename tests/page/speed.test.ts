import { expect, it } from 'vitest';
import { diffItems } from '../../server/protocol/methods/summary.ts';
import { analyseExample, fettle } from '../core/features/example.ts';
import { readExample } from '../support/example.ts';
import { makeServer, URI } from './made-up-server.ts';
import { openPage, servePage, startBrowser } from './open-page.ts';

/** From a key press to the repainted page, at the example's 300 lines, with the layout of the drawing unchanged. */
const MOST_MS = 100;
const EDITS = 20;

it('repaints the page within a tenth of a second after an edit, and sends only what it changed', async () => {
  const [browser, site] = await Promise.all([startBrowser(), servePage()]);
  try {
    const first = fettle.summary(analyseExample()).items;
    const { page } = await openPage(
      browser,
      site.url,
      makeServer(() => first),
    );
    await page.locator('.wiring').waitFor();
    let have: Readonly<Record<string, string>> = hashesOf(diffItems(first, {}));
    const times: number[] = [];
    for (let edit = 1; edit <= EDITS; edit++) {
      const text = readExample().replace('feed:         5000', `feed:         ${5000 + edit}`);
      const started = performance.now();
      const analysis = fettle.analyse('gantry-router.machine.yaml', text);
      fettle.findings(analysis);
      const patches = diffItems(fettle.summary(analysis).items, have);
      const computed = performance.now() - started;
      have = { ...have, ...hashesOf(patches) };
      expect(patches.length).toBeGreaterThan(0);
      expect(patches.length).toBeLessThan(8);
      const message = { kind: 'changes', uri: URI, changes: { title: 'T', broken: false, patches } };
      const painted = await page.evaluate(
        async ([data, wanted]) => {
          const begun = performance.now();
          postMessage(data, '*');
          const isThere = () =>
            document.querySelector('[data-id="axis:X"]')?.textContent?.includes(String(wanted));
          while (!isThere()) await new Promise((done) => setTimeout(done, 0));
          await new Promise((done) => requestAnimationFrame(() => setTimeout(done, 0))); // after the frame is painted
          return performance.now() - begun;
        },
        [message, `${5000 + edit} mm/min`] as const,
      );
      times.push(computed + painted);
    }
    // The best of several, since other work on the machine only ever adds to a time.
    expect(Math.min(...times)).toBeLessThan(MOST_MS);
    process.stdout.write(`edit to repainted page: ${times.map((time) => Math.round(time)).join(', ')} ms\n`);
  } finally {
    await browser.close();
    site.close();
  }
});

function hashesOf(patches: ReturnType<typeof diffItems>): Record<string, string> {
  return Object.fromEntries(
    patches.flatMap((patch) => (patch.kind === 'put' ? [[patch.id, patch.hash]] : [])),
  );
}
