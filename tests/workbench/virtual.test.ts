import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { EXAMPLE_FOLDER, readExample } from '../support/example.ts';
import { type BrowserHost, startBrowserHost } from './browser-host.ts';
import { type Host, startHost } from './host.ts';
import {
  goTo,
  hoverAt,
  pointAt,
  problems,
  quickFixes,
  runCommand,
  startBrowser,
  summaryOf,
  visibleText,
} from './page.ts';
import { FILE, installHost, openWindow, shoot, VSIX, type Window } from './session.ts';

/*
 * Folders on no disk. Once in the browser alone, as in VS Code for the Web: extension and language server are workers,
 * and every file comes from another extension's file system. Once with a server, where both are processes that cannot
 * reach the files either.
 */

const SHEETS = path.join(EXAMPLE_FOLDER, 'sheets');
/** The example with a unit left out, and a second machine that nobody opens, whose lead has no unit either. */
const FILES: Readonly<Record<string, string>> = Object.fromEntries([
  [`/machines/${FILE}`, readExample().replace('lead: 10 mm', 'lead: 10')],
  ['/machines/other/closed.machine.yaml', 'machine: Closed\naxes:\n  X: { travel: 640 }\n'],
  ...fs
    .readdirSync(SHEETS)
    .map((name) => [`/machines/sheets/${name}`, fs.readFileSync(path.join(SHEETS, name), 'utf8')]),
]);

const WAIT = { timeout: 20_000 };

let browser: Browser;
beforeAll(async () => {
  installHost();
  browser = await startBrowser();
});
afterAll(() => browser?.close());

/** What a person meets first; it needs the sheets, and so the files that only the workbench reaches. */
async function describeProblems({ page }: Window): Promise<void> {
  const rows = await problems(page);
  await rows
    .filter({ hasText: /which unit is meant/ })
    .first()
    .waitFor();
  const said = await rows.evaluateAll((all) => all.map((row) => row.getAttribute('aria-label') ?? ''));
  const faults = said.filter((label) => /^(?:Error|Warning)/.test(label));
  expect(faults.filter((label) => !/unit/.test(label))).toEqual([]);
  // The machine that nobody opened is looked at as well.
  await rows
    .filter({ hasText: /640 has no unit/ })
    .first()
    .waitFor();
  await page.keyboard.press('Control+Shift+M');
}

async function seeSummary({ page }: Window): Promise<void> {
  await runCommand(page, 'Fettle: Show wiring summary');
  const summary = summaryOf(page);
  await summary.locator('h1', { hasText: 'Fairground router' }).waitFor();
  await summary.locator('svg [data-id^="part:"]').first().waitFor();
}

describe('in the browser alone', () => {
  let host: BrowserHost;
  let window: Window;
  beforeAll(async () => {
    host = await startBrowserHost(VSIX, FILES);
    window = await openWindow(browser, host.addressOf('/machines', FILE), FILE);
  });
  afterAll(async () => {
    await window?.context.close();
    host?.stop();
  });

  it('findings of open and of closed machines are shown', async () => {
    await describeProblems(window);
  });

  it('the wiring summary is drawn', async () => {
    await seeSummary(window);
    await shoot(window.page, 'browser-alone');
  });

  it('a quick fix puts the unit in, and the numbers follow', async () => {
    const { page, editor } = window;
    await page.locator('.tab', { hasText: FILE }).first().click();
    const lines = FILES[`/machines/${FILE}`]?.split('\n') ?? [];
    const line = lines.findIndex((each) => each.includes('lead: 10'));
    await goTo(page, line + 1, (lines[line]?.indexOf('lead: 10') ?? 0) + 7);
    await (await quickFixes(page)).filter({ hasText: '10 mm' }).first().click();
    await expect.poll(() => visibleText(editor), WAIT).toMatch(/lead: 10 mm/);
    await expect.poll(() => visibleText(editor), WAIT).toMatch(/X:.*160/);
    expect(await hoverAt(page, () => pointAt(editor, 'X:'), /160/)).toMatch(/1600 × 1 \/ 10 mm/);
    await page.keyboard.press('Escape');
  });

  it('a sheet that ships opens from its name', async () => {
    const { page } = window;
    await goTo(page, 11, 32);
    await page.keyboard.press('F12');
    const sheet = page.locator('.editor-instance .monaco-editor[data-uri^="fettle-library:"]').first();
    await expect.poll(() => visibleText(sheet), WAIT).toMatch(/^part: /m);
  });

  it('the server starts anew when it is told to', async () => {
    const { page } = window;
    await page.locator('.tab', { hasText: FILE }).first().click();
    await runCommand(page, 'Fettle: Restart language server');
    await goTo(page, 1, 1);
    await page.keyboard.type('x: 1\n');
    await (await problems(page))
      .filter({ hasText: /not a section|unknown/i })
      .first()
      .waitFor();
    expect(await page.locator('.notification-toast').count()).toBe(0);
  });
});

describe('with a server that does not reach the files', () => {
  let host: Host;
  let window: Window;
  let dir: string;
  beforeAll(async () => {
    dir = fs.mkdtempSync(path.join(os.tmpdir(), 'fettle-memory-'));
    host = await startHost({ dir: path.join(dir, 'host'), vsix: VSIX, others: [packMemoryFiles(dir)] });
    const payload = JSON.stringify([['openFile', `memory:/machines/${FILE}`]]);
    const query = new URLSearchParams({ folder: 'memory:/machines', payload });
    window = await openWindow(browser, `${host.url}/?${query}`, FILE);
  });
  afterAll(async () => {
    await window?.context.close();
    await host?.stop();
    fs.rmSync(dir, { recursive: true, force: true, maxRetries: 20, retryDelay: 250 });
  });

  it('findings of open and of closed machines are shown, and the wiring summary', async () => {
    await describeProblems(window);
    await seeSummary(window);
    await shoot(window.page, 'files-in-memory');
  });
});

/** Packs the file system in memory, with the files in it, as an extension that can be installed. */
function packMemoryFiles(dir: string): string {
  const folder = path.join(dir, 'memory-files');
  fs.cpSync(path.join(import.meta.dirname, 'memory-files'), folder, { recursive: true });
  fs.writeFileSync(path.join(folder, 'files.json'), JSON.stringify(FILES));
  const vsix = path.join(dir, 'memory-files.vsix');
  const asTest = ['--no-dependencies', '--allow-missing-repository', '--skip-license'];
  execFileSync('vsce', ['package', ...asTest, '--out', vsix], { cwd: folder, stdio: 'pipe' });
  return vsix;
}
