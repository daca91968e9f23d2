import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readExample, STANDING_CAUTION } from '../support/example.ts';
import { servePage, startBrowser } from './open-page.ts';

/** The language server as a worker of a plain page, without an editor and without files. */

const SHEET = readFileSync(
  new URL('../../examples/gantry-router/sheets/four-axis-bench-panel.part.yaml', import.meta.url),
  'utf8',
);

let browser: Browser;
let page: Page;
let served: Awaited<ReturnType<typeof servePage>>;

beforeAll(async () => {
  served = await servePage();
  browser = await startBrowser();
  page = await browser.newPage();
  // A page of its own, so that no policy of the summary's page keeps the worker out.
  await page.goto(`${served.url}third-party.txt`);
  await page.evaluate(startWorker, `${served.url}server-worker.js`);
}, 60_000);

/** Runs in the page: a worker, and what passes between it and the page. */
function startWorker(url: string): void {
  const worker = new Worker(url);
  const waiting = new Map<number, (answer: unknown) => void>();
  const asked: string[] = [];
  let id = 0;
  worker.onmessage = ({ data }) => {
    if (data.method !== undefined && data.id !== undefined) {
      asked.push(data.method);
      // What an editor would read from its folder.
      const result =
        data.method === 'fettle/readFile' && data.params.uri.endsWith('.part.yaml')
          ? { kind: 'text', text: (window as unknown as { sheet: string }).sheet }
          : { kind: 'missing' };
      worker.postMessage({ jsonrpc: '2.0', id: data.id, result });
    } else if (data.id !== undefined) {
      waiting.get(data.id)?.(data.error ?? data.result);
      waiting.delete(data.id);
    }
  };
  Object.assign(window, {
    asked,
    notify: (method: string, params: unknown) => worker.postMessage({ jsonrpc: '2.0', method, params }),
    request: (method: string, params: unknown) =>
      new Promise((resolve) => {
        id += 1;
        waiting.set(id, resolve);
        worker.postMessage({ jsonrpc: '2.0', id, method, params });
      }),
  });
}

afterAll(async () => {
  await browser.close();
  served.close();
});

const request = <T>(method: string, params: unknown): Promise<T> =>
  page.evaluate(
    ([name, given]) =>
      (window as unknown as { request: (name: string, given: unknown) => Promise<T> }).request(
        name as string,
        given,
      ),
    [method, params] as const,
  ) as Promise<T>;
const notify = (method: string, params: unknown) =>
  page.evaluate(
    ([name, given]) =>
      (window as unknown as { notify: (name: string, given: unknown) => void }).notify(name as string, given),
    [method, params] as const,
  );

test('the server starts in a worker and checks a machine with the sheets that ship, and those that the editor reads', async () => {
  await page.evaluate((text) => Object.assign(window, { sheet: text }), SHEET);
  const { capabilities } = await request<{ capabilities: { hoverProvider: unknown } }>('initialize', {
    processId: null,
    rootUri: 'memfs:/machines',
    initializationOptions: { readsFiles: true },
    capabilities: { textDocument: { diagnostic: {} } },
  });
  expect(capabilities.hoverProvider).toBeTruthy();
  await notify('initialized', {});
  const uri = 'memfs:/machines/gantry-router.machine.yaml';
  await notify('textDocument/didOpen', {
    textDocument: { uri, languageId: 'fettle-machine', version: 1, text: readExample() },
  });
  const { items } = await request<{ items: { code: string; severity: number }[] }>(
    'textDocument/diagnostic',
    { textDocument: { uri } },
  );
  const faults = items.filter(({ severity, code }) => severity < 3 && !STANDING_CAUTION.test(code));
  expect(faults.map(({ code }) => code)).toEqual([]);
  const at = readExample()
    .split('\n')
    .findIndex((line) => /^ {4}screw:/.test(line));
  const hover = await request<{ contents: unknown } | null>('textDocument/hover', {
    textDocument: { uri },
    position: { line: at, character: 6 },
  });
  expect(JSON.stringify(hover)).toMatch(/screw/i);
  expect(await page.evaluate(() => (window as unknown as { asked: string[] }).asked)).toContain(
    'fettle/readFile',
  );
});

test('a fault in the text is found there as anywhere', async () => {
  const uri = 'memfs:/machines/other.machine.yaml';
  await notify('textDocument/didOpen', {
    textDocument: {
      uri,
      languageId: 'fettle-machine',
      version: 1,
      text: 'machine: x\naxes:\n  X: { travel: 640 }\n',
    },
  });
  const { items } = await request<{ items: { code: string }[] }>('textDocument/diagnostic', {
    textDocument: { uri },
  });
  expect(items.map(({ code }) => code)).toEqual(['unit/missing']);
});
