import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Browser, BrowserContext, Locator, Page } from 'playwright-core';
import { EXAMPLE_FILE, EXAMPLE_FOLDER } from '../support/example.ts';
import { writeFile } from '../support/folder.ts';
import { ROOT } from '../support/lsp-client.ts';
import { addressOf, type Host, type HostOptions, startHost } from './host.ts';
import { editorOf, refuseOutside, startBrowser } from './page.ts';

export const FILE = path.basename(EXAMPLE_FILE);
export const VSIX = path.join(ROOT, '.cache/fettle.vsix');
const SHOTS = path.join(ROOT, '.cache/screenshots');

/** A workbench with the packed extension, and a browser to look at it. */
export interface Session {
  readonly host: Host;
  /** Opens a copy of the example, changed first if wanted, in a window of its own. */
  readonly openExample: (change?: (text: string) => string) => Promise<Window>;
  /** Opens a new folder with these files and one of them, in a window of its own. */
  readonly openFolder: (files: Readonly<Record<string, string>>, file: string) => Promise<Window>;
  readonly browser: Browser;
  readonly stop: () => Promise<void>;
}

export interface Window {
  readonly context: BrowserContext;
  readonly page: Page;
  readonly editor: Locator;
  /** The file on disk. */
  readonly file: string;
  /** Addresses outside of this machine that were asked for. */
  readonly refused: readonly string[];
  /** How long the window took until the text was on screen, in ms. */
  readonly opened: number;
}

/** Installs the workbench where the tests expect it, if it is not there. */
export function installHost(): void {
  execFileSync('bash', [path.join(import.meta.dirname, 'install-host.sh'), path.join(ROOT, '.vscode-host')]);
}

/** Installs the host if it is not there, and the packed extension into it, in folders of its own. */
export async function startSession(name: string, options: Partial<HostOptions> = {}): Promise<Session> {
  installHost();
  // Of its own for each run, so that two can go on at once; short, since paths of sockets may not be long.
  const dir = fs.mkdtempSync(path.join(os.tmpdir(), `fettle-${name}-`));
  const host = await startHost({ ...options, dir, vsix: VSIX });
  const browser = await startBrowser().catch(async (error: unknown) => {
    await host.stop();
    throw error;
  });
  let copies = 0;
  return {
    host,
    browser,
    openFolder: (files, name) => {
      copies += 1;
      const folder = path.join(dir, `folder-${copies}`);
      for (const [each, text] of Object.entries(files)) writeFile(folder, each, text);
      const file = path.join(folder, name);
      return openWindow(browser, addressOf(host, folder, file), file);
    },
    openExample: async (change = (text) => text) => {
      copies += 1; // a folder each, since unsaved texts come back in the next window of the same folder
      const folder = path.join(dir, `copy-${copies}`);
      fs.cpSync(EXAMPLE_FOLDER, folder, { recursive: true });
      const file = path.join(folder, FILE);
      fs.writeFileSync(file, change(fs.readFileSync(file, 'utf8')));
      return openWindow(browser, addressOf(host, folder, file), file);
    },
    stop: async () => {
      await browser.close();
      await host.stop();
      fs.rmSync(dir, { recursive: true, force: true, maxRetries: 20, retryDelay: 250 }); // its children end a little later
    },
  };
}

/** Opens an address of a workbench in which a file of this name is open. */
export async function openWindow(browser: Browser, address: string, file: string): Promise<Window> {
  const context = await browser.newContext({ viewport: { width: 1700, height: 1000 } });
  const refused = await refuseOutside(context);
  const page = await context.newPage();
  page.setDefaultTimeout(90_000);
  const started = performance.now();
  await page.goto(address);
  const editor = editorOf(page, path.basename(file));
  await editor.locator('.view-line').first().waitFor();
  await focusText(page, editor);
  return { context, page, editor, file, refused, opened: performance.now() - started };
}

/** Keeps a picture for the person who reads the test run. */
export async function shoot(page: Page, name: string): Promise<void> {
  fs.mkdirSync(SHOTS, { recursive: true });
  await page.screenshot({ path: path.join(SHOTS, `${name}.png`) });
}

/**
 * Puts the keyboard into the text by a click on what is on screen. A click on the element would first scroll it into
 * view, which moves the editor's own layers against each other.
 */
async function focusText(page: Page, editor: Locator): Promise<void> {
  const click = async () => {
    const box = await editor.boundingBox();
    if (box) await page.mouse.click(box.x + 120, box.y + 12);
    return editor.evaluate((element) => element.classList.contains('focused'));
  };
  for (let tries = 0; tries < 60; tries++) {
    if (await click()) return;
    await page.waitForTimeout(300);
  }
  throw new Error('the text does not take the keyboard');
}

/** Line and column, from 1, of some text in a file; `offset` characters into it. Throws when it is not there. */
export function whereIs(file: string, text: string, offset = 0): { line: number; column: number } {
  const lines = fs.readFileSync(file, 'utf8').split('\n');
  const line = lines.findIndex((content) => content.includes(text));
  if (line < 0) throw new Error(`not in the file: ${text}`);
  return { line: line + 1, column: (lines[line]?.indexOf(text) ?? 0) + offset + 1 };
}
