import { readFile } from 'node:fs/promises';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import type { FromPage, ToPage } from '../../client/features/summary/messages.ts';
import { pageHtml } from '../../client/features/summary/page-html.ts';
import { germanWords } from '../support/german.ts';

const DIST = new URL('../../dist/', import.meta.url);
const TYPES: Readonly<Record<string, string>> = { js: 'text/javascript', css: 'text/css' };

/** Serves the page as the editor would: the same document with the same policy, from one place of its own. Behind a `?` stands its language. */
export async function servePage(): Promise<{ readonly url: string; readonly close: () => void }> {
  const server: Server = createServer((request, response) => {
    const [name = '', language] = (request.url ?? '/').slice(1).split('?');
    if (name === '') {
      const source = `http://${request.headers.host}`;
      const file = (path: string): string => `${source}/${path}`;
      response.setHeader('content-type', 'text/html');
      const files = { script: file('page.js'), style: file('page.css'), worker: file('elk-worker.js') };
      const words = language === 'de' ? germanWords() : undefined;
      response.end(pageHtml({ source, nonce: 'for-tests', words, ...files }));
      return;
    }
    readFile(new URL(name, DIST)).then(
      (bytes) => {
        response.setHeader('content-type', TYPES[name.split('.').at(-1) ?? ''] ?? 'text/plain');
        response.end(bytes);
      },
      () => {
        response.statusCode = 404;
        response.end();
      },
    );
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const { port } = server.address() as AddressInfo;
  return { url: `http://127.0.0.1:${port}/`, close: () => server.close() };
}

/** A4 less its margins, in pixels of the page. */
export const PAPER = { width: Math.round((186 / 25.4) * 96), height: Math.round((269 / 25.4) * 96) };

/** The same for a drawing, which lies across with narrower margins. */
export const ACROSS = { width: Math.round((281 / 25.4) * 96), height: Math.round((186 / 25.4) * 96) };

/** Starts the system's own browser. */
export function startBrowser(): Promise<Browser> {
  return chromium.launch({
    executablePath: '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}

/** The browser and the served page of one test file. */
export interface Host {
  readonly browser: Browser;
  readonly url: string;
}

/** Has a browser and the page ready while the tests of a file run. What it returns is filled before the first of them. */
export function hostPage(): Host {
  const host: { browser?: Browser; url?: string; close?: () => void } = {};
  beforeAll(async () => {
    const [browser, site] = await Promise.all([startBrowser(), servePage()]);
    Object.assign(host, { browser, url: site.url, close: site.close });
  });
  afterAll(async () => {
    host.close?.();
    await host.browser?.close();
  });
  return {
    get browser() {
      if (!host.browser) throw new Error('the browser is there only while tests run');
      return host.browser;
    },
    get url() {
      return host.url ?? '';
    },
  };
}

/** An open page with a made-up editor behind it. */
export interface Opened {
  readonly page: Page;
  readonly tell: (message: ToPage) => Promise<void>;
  /** What the page has said so far. */
  readonly heard: () => Promise<readonly FromPage[]>;
  /** What the browser complained of: errors, and breaches of the content security policy. */
  readonly complaints: readonly string[];
}

/**
 * Opens the page. `answer` plays the editor: what it returns for a message of the page is told to the page. The state
 * that the page keeps survives a reload, as in the editor.
 */
export async function openPage(
  browser: Browser,
  url: string,
  answer: (message: FromPage) => readonly ToPage[] = () => [],
  theme: Theme = LIGHT,
): Promise<Opened> {
  const context = await browser.newContext({
    viewport: { width: 1100, height: 900 },
    colorScheme: theme.scheme,
    reducedMotion: 'reduce',
  });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  const tell = (message: ToPage): Promise<void> =>
    page.evaluate((data) => {
      postMessage(data, '*');
    }, message);
  await page.exposeFunction('fettleHears', async (message: string) => {
    for (const reply of answer(JSON.parse(message))) await tell(reply);
  });
  await page.addInitScript(actAsEditor, theme);
  await page.goto(url);
  // As text, since the way out of the browser drops keys such as `__proto__`.
  const heard = async (): Promise<FromPage[]> =>
    JSON.parse(await page.evaluate(() => JSON.stringify(Reflect.get(globalThis, 'heard'))));
  return { page, tell, heard, complaints };
}

/** Runs in the page before its script: the editor's interface, and the theme that the editor would set. */
function actAsEditor(theme: Theme): void {
  const heard: unknown[] = [];
  let state: unknown = JSON.parse(sessionStorage.getItem('state') ?? 'null');
  Object.assign(globalThis, {
    heard,
    acquireVsCodeApi: () => ({
      postMessage: (message: unknown) => {
        heard.push(message);
        void Reflect.get(globalThis, 'fettleHears')(JSON.stringify(message));
      },
      getState: () => state,
      setState: (next: unknown) => {
        state = structuredClone(next);
        sessionStorage.setItem('state', JSON.stringify(next));
      },
    }),
  });
  addEventListener('DOMContentLoaded', () => {
    document.body.classList.add(...theme.body);
    for (const [name, value] of Object.entries(theme.colours)) {
      document.documentElement.style.setProperty(`--vscode-${name}`, value);
    }
  });
}

export interface Theme {
  readonly name: string;
  readonly scheme: 'light' | 'dark';
  readonly body: readonly string[];
  readonly colours: Readonly<Record<string, string>>;
}

// Colours of our own for tests, under the names that the editor gives them.
export const LIGHT: Theme = { name: 'light', scheme: 'light', body: ['vscode-light'], colours: {} };
export const DARK: Theme = {
  name: 'dark',
  scheme: 'dark',
  body: ['vscode-dark'],
  colours: {
    'editor-background': '#1f1f1f',
    'editor-foreground': '#cccccc',
    'editorWidget-background': '#252526',
    descriptionForeground: '#9d9d9d',
    focusBorder: '#2488db',
  },
};
export const HIGH_CONTRAST: Theme = {
  name: 'high-contrast',
  scheme: 'dark',
  body: ['vscode-high-contrast'],
  colours: {
    'editor-background': '#000000',
    'editor-foreground': '#ffffff',
    'editorWidget-background': '#0c141f',
    contrastBorder: '#6fc3df',
    contrastActiveBorder: '#f38518',
    focusBorder: '#f38518',
    descriptionForeground: '#ffffff',
    'textLink-foreground': '#21a6ff',
  },
};
export const HIGH_CONTRAST_LIGHT: Theme = {
  name: 'high-contrast-light',
  scheme: 'light',
  body: ['vscode-high-contrast', 'vscode-high-contrast-light'],
  colours: {
    'editor-background': '#ffffff',
    'editor-foreground': '#1c1c1c',
    'editorWidget-background': '#ffffff',
    contrastBorder: '#0f4a85',
    contrastActiveBorder: '#006bbd',
    focusBorder: '#006bbd',
    descriptionForeground: '#1c1c1c',
    'textLink-foreground': '#0f4a85',
  },
};
export const THEMES: readonly Theme[] = [LIGHT, DARK, HIGH_CONTRAST, HIGH_CONTRAST_LIGHT];
