import fs from 'node:fs';
import path from 'node:path';
import type { Browser, FrameLocator, Page } from 'playwright-core';
import { expect } from 'vitest';
import { compareImages } from '../page/compare-images.ts';
import { ROOT } from '../support/lsp-client.ts';

/*
 * Pictures in documents. `npm run picture` takes them anew; otherwise each is taken and held against the one that ships,
 * so that none shows what is no longer so.
 */

/** What of the window a picture shows. */
export type Box = Readonly<Record<'x' | 'y' | 'width' | 'height', number>>;

/** More of a picture than a cursor, a scroll bar and other fonts change; less than another text or section does. */
const MOST_APART = 0.08;

/** Takes a picture and holds the one that ships against it; it takes that one's place when it was asked for. */
export async function take(
  browser: Browser,
  page: Page,
  file: string,
  { clip, mostBytes = 120_000 }: { clip?: Box; mostBytes?: number } = {},
): Promise<void> {
  const shots = path.join(ROOT, '.cache/screenshots');
  fs.mkdirSync(shots, { recursive: true });
  const bytes = await page.screenshot({
    path: path.join(shots, path.basename(file)),
    caret: 'hide',
    ...(clip && { clip }),
  });
  if (process.env.UPDATE_PICTURE === '1') {
    fs.mkdirSync(path.dirname(file), { recursive: true });
    fs.writeFileSync(file, bytes);
  }
  expect(bytes.length).toBeLessThan(mostBytes);
  const apart = await compareImages(browser, bytes, fs.readFileSync(file));
  expect(apart, `${path.basename(file)} is out of date: npm run picture, and look at it`).toBeLessThan(
    MOST_APART,
  );
}

/** Waits until the wiring drawing is laid out. */
export async function drawn(summary: FrameLocator): Promise<void> {
  await summary.locator('.frame svg [data-id^="part:"]').first().waitFor();
  await summary.locator('.laying-out').waitFor({ state: 'detached', timeout: 60_000 });
}

/** Goes to the wiring drawing. While it was laid out the page has grown, so where it stands is settled afterwards. */
export async function goToDrawing(summary: FrameLocator): Promise<void> {
  await summary.getByText('Wiring drawing', { exact: true }).first().click();
  await drawn(summary);
  await summary.locator('#section-drawing').evaluate(async (section) => {
    section.scrollIntoView({ block: 'start', behavior: 'instant' });
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  });
}

/** How a workbench is set up for pictures: nothing on screen but what they are about. */
export const BARE = {
  'editor.minimap.enabled': false,
  'workbench.activityBar.location': 'hidden',
  'breadcrumbs.enabled': false,
};
