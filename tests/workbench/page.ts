import fs from 'node:fs';
import {
  type Browser,
  type BrowserContext,
  chromium,
  type FrameLocator,
  type Locator,
  type Page,
} from 'playwright-core';

const CHROMIUM = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];
const QUIET = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];
const EXTENSION = 'fettle.fettle';

/** Starts the browser that the system has. */
export function startBrowser(): Promise<Browser> {
  const executablePath = CHROMIUM.find((file) => fs.existsSync(file));
  if (!executablePath) throw new Error("no Chromium found: install your system's package for it");
  return chromium.launch({ executablePath, args: QUIET });
}

/** Refuses every request that leaves this machine and keeps its address; a webview's own files come from a service worker. */
export async function refuseOutside(context: BrowserContext): Promise<readonly string[]> {
  const refused: string[] = [];
  await context.route(
    (url) =>
      !['127.0.0.1', 'localhost'].includes(url.hostname) &&
      !url.hostname.endsWith('.vscode-resource.vscode-cdn.net'),
    (route) => {
      refused.push(route.request().url());
      return route.abort();
    },
  );
  return refused;
}

export const editorOf = (page: Page, name: string): Locator =>
  page.locator(`.editor-instance .monaco-editor[data-uri$="/${name}"]`);

/** The lines on screen, top to bottom: rows are used again, so their order in the document is not that of the text. */
export function visibleText(editor: Locator): Promise<string> {
  return editor
    .locator('.view-lines')
    .first()
    .evaluate((box) =>
      [...box.children]
        .map((row) => ({
          top: Number.parseFloat((row as HTMLElement).style.top),
          text: row.textContent ?? '',
        }))
        .sort((a, b) => a.top - b.top)
        .map(({ text }) => text)
        .join('\n')
        .replace(/\u00a0/g, ' '),
    );
}

/** The middle of some text on screen, in page coordinates; words share a span, so a locator would be too coarse. */
export function pointAt(editor: Locator, text: string): Promise<{ x: number; y: number }> {
  return editor
    .locator('.view-lines')
    .first()
    .evaluate((box, wanted) => {
      // Hints stand between the words of a line, so the line's text is put together from its own pieces.
      for (const row of box.children) {
        const walker = document.createTreeWalker(row, NodeFilter.SHOW_TEXT);
        const pieces: Text[] = [];
        for (let node = walker.nextNode(); node; node = walker.nextNode()) pieces.push(node as Text);
        const whole = pieces
          .map(({ data }) => data)
          .join('')
          .replace(/\u00a0/g, ' ');
        const index = whole.indexOf(wanted);
        if (index < 0) continue;
        const range = document.createRange();
        const middle = index + Math.floor(wanted.length / 2);
        let at = 0;
        for (const piece of pieces) {
          if (middle < at + piece.data.length) {
            range.setStart(piece, middle - at);
            range.setEnd(piece, middle - at + 1);
            break;
          }
          at += piece.data.length;
        }
        const { x, y, width, height } = range.getBoundingClientRect();
        return { x: x + width / 2, y: y + height / 2 };
      }
      throw new Error(`not on screen: ${wanted}`);
    }, text);
}

/** How often something is opened, and how long it may take each time: a busy window loses a key now and then. */
const OPENING = { times: 4, patience: 20_000 };

/** Tries something that a person would try again. @throws what it threw the last time */
async function insist(attempt: () => Promise<void>): Promise<void> {
  for (let time = 1; ; time++) {
    try {
      return await attempt();
    } catch (error) {
      if (time === OPENING.times) throw error;
    }
  }
}

/** Presses the key of an input at the top of the window and writes into it. */
async function writeIntoQuickInput(page: Page, key: string, text: string): Promise<Locator> {
  const box = page.locator('.quick-input-widget:visible');
  await page.keyboard.press(key);
  await box.locator('input').first().fill(text, { timeout: OPENING.patience });
  return box;
}

/** The list holds what there was when it was opened: what an extension brings that is just starting is in the next one. */
async function fillQuickInput(page: Page, key: string, text: string, row: string): Promise<void> {
  await insist(async () => {
    const box = await writeIntoQuickInput(page, key, text);
    const wanted = box.locator('.monaco-list-row.focused', { hasText: row }); // else Enter takes the row of before
    try {
      await wanted.waitFor({ timeout: OPENING.patience });
    } catch (error) {
      await page.keyboard.press('Escape');
      throw error;
    }
  });
  await page.keyboard.press('Enter');
}

export const runCommand = (page: Page, title: string): Promise<void> =>
  fillQuickInput(page, 'F1', `>${title}`, title.replace(/^.*: /, ''));

/** Puts the cursor at a line and column, both from 1. */
export async function goTo(page: Page, line: number, column: number): Promise<void> {
  await insist(async () => {
    await writeIntoQuickInput(page, 'Control+G', `:${line}:${column}`);
  });
  await page.keyboard.press('Enter');
  await page.locator('#status\\.editor\\.selection', { hasText: `Ln ${line}, Col ${column}` }).waitFor();
}

/** Selects a stretch of one line and types over it, as a person would. */
export async function typeOver(
  page: Page,
  line: number,
  column: number,
  length: number,
  text: string,
): Promise<void> {
  await goTo(page, line, column);
  for (let step = 0; step < length; step++) await page.keyboard.press('Shift+ArrowRight');
  if (text === '') await page.keyboard.press('Delete');
  else await page.keyboard.type(text);
}

/** The fixes offered at the cursor. Asked again when none come: a look for fixes after a cursor move can take their place. */
export async function quickFixes(page: Page): Promise<Locator> {
  const fixes = page.locator('.action-widget .monaco-list-row.action');
  for (let tries = 1; tries <= 4; tries++) {
    await page.keyboard.press('Control+.');
    const seen = await fixes
      .first()
      // The same keys accept what is chosen in a list that comes late, so it is given time.
      .waitFor({ timeout: 8000 * tries })
      .then(
        () => true,
        () => false,
      );
    if (seen) return fixes;
  }
  throw new Error('no quick fixes are offered');
}

/**
 * The hover over a spot in the text; two moves, since a hover starts on movement. The spot is sought anew at each try:
 * lines above it that come late, such as lenses, push the text down.
 */
export async function hoverAt(
  page: Page,
  findSpot: () => Promise<{ x: number; y: number }>,
  text: string | RegExp,
): Promise<string> {
  const hover = page.locator('.monaco-hover:not(.hidden)', { hasText: text });
  for (let tries = 1; tries <= 4; tries++) {
    const { x, y } = await findSpot();
    await page.mouse.move(x - 30, y + 60);
    await page.mouse.move(x - 2, y);
    await page.mouse.move(x, y);
    const seen = await hover.waitFor({ timeout: 3000 * tries }).then(
      () => true,
      () => false,
    );
    if (seen) return (await hover.textContent()) ?? '';
  }
  throw new Error(`no hover with ${text} is shown`);
}

/** The problems of the open texts, as the Problems view reads them out, opened when it is not. */
export async function problems(page: Page): Promise<Locator> {
  const panel = page.locator('.markers-panel');
  if (!(await panel.isVisible())) await page.keyboard.press('Control+Shift+M');
  await panel.waitFor();
  return panel.locator('.monaco-list-row');
}

/** The body of the wiring summary: an outer frame that the workbench owns, and in it the extension's page. */
export const summaryOf = (page: Page): FrameLocator =>
  page
    .frameLocator(`iframe.webview.ready[src*="extensionId=${EXTENSION}"]`)
    .frameLocator('iframe#active-frame');
