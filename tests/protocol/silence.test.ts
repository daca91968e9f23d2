import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { CodeAction } from 'vscode-languageserver/node';
import { SUMMARY_CHANGES, type SummaryChanges } from '../../server/protocol/private.ts';
import { wordsOf } from '../support/example.ts';
import { type Client, ROOT, startClient, uriOf } from '../support/lsp-client.ts';
import { VARIANTS } from '../support/marked.ts';

/** Two findings of one code on two lines, the second with a comment of its own. */
const TEXT = `# 🙂 a toy
machine: Toy lathe
axes:
  X: { travel: 640 }
  Y: { travel: 300 } # 🙂 across
`;

let client: Client;
// A name for each text: what was pushed for one cannot be taken for what is pushed for the next.
let uri = '';
let count = 0;
beforeEach(() => {
  count += 1;
  uri = uriOf(`examples/silenced-${count}.machine.yaml`);
});
beforeAll(async () => {
  client = await startClient({
    capabilities: { window: { showDocument: { support: true } } },
    initializationOptions: { hearsChecks: true },
  });
});
afterAll(() => client.stop());

/** The codes found, in the order of the text, after the first action with this title was applied. */
async function applied(
  text: string,
  line: number,
  title: RegExp,
): Promise<{ codes: string[]; text: string }> {
  client.open(uri, text);
  const found = await client.waitForDiagnostics(uri);
  const diagnostic = found.find(({ range, code }) => range.start.line === line && code === 'unit/missing');
  if (!diagnostic) throw new Error(`nothing found in line ${line}`);
  const action = (await client.codeActions(uri, [diagnostic])).find((each) => title.test(each.title));
  expect(action?.kind).toBe('quickfix');
  client.applyEdit(action?.edit);
  const after = await client.waitForDiagnostics(uri);
  const result = { codes: after.map(({ code }) => String(code)), text: client.textOf(uri) };
  client.close(uri);
  return result;
}

describe.each([...VARIANTS])('a finding is silenced, in a text with %s', (_, vary) => {
  it('for its line', async () => {
    const { codes, text } = await applied(vary(TEXT), 3, /^Silence unit\/missing for this line/);
    expect(codes).toEqual(['unit/missing']);
    expect(text).toBe(vary(TEXT.replace('640 }', '640 }  # fettle silence unit/missing')));
  });

  it('above its line where there is a comment already', async () => {
    const { codes, text } = await applied(vary(TEXT), 4, /for this line/);
    expect(codes).toEqual(['unit/missing']);
    expect(text).toBe(vary(TEXT.replace('  Y:', '  # fettle silence unit/missing\n  Y:')));
  });

  it('for the file', async () => {
    const { codes, text } = await applied(vary(TEXT), 3, /for this file/);
    expect(codes).toEqual([]);
    expect(text).toBe(vary(`# fettle silence-file unit/missing\n${TEXT}`));
  });
});

it('a second code goes into the silence that is there', async () => {
  const text = TEXT.replace('640 }', '640 } # fettle silence name/unused-part: why not');
  const { text: after, codes } = await applied(text, 3, /for this line/);
  expect(after).toContain('# fettle silence name/unused-part, unit/missing: why not');
  expect(codes).toEqual(['silence/unused', 'unit/missing']);
});

it('a silence that does nothing, and one that is misspelt, are found and cured', async () => {
  client.open(
    uri,
    TEXT.replace('640 }', '640 mm } # fettle silence unit/missing')
      .replace('300 }', '300 mm }')
      .replace(' a toy', ' a toy\n# fettle silence-flie unit/missing'),
  );
  const found = await client.waitForDiagnostics(uri);
  expect(found.map(({ code, range }) => `${range.start.line} ${code}`)).toEqual([
    '1 silence/unknown-code',
    '4 silence/unused',
  ]);
  const [misspelt, unused] = found;
  expect(misspelt && wordsOf(misspelt)).toContain('silence-file');
  const remove = await client.codeActions(uri, unused ? [unused] : []);
  client.applyEdit(remove.find(({ title }) => title === 'Remove it')?.edit);
  expect(client.textOf(uri)).toContain('  X: { travel: 640 mm }\n');
  client.close(uri);
});

it('a finding is explained by its page', async () => {
  client.open(uri, TEXT);
  const found = await client.waitForDiagnostics(uri);
  const explain = (await client.codeActions(uri, found)).find(
    ({ title }) => title === 'Explain unit/missing',
  );
  let shown = '';
  client.connection.onRequest('window/showDocument', (params: { uri: string }) => {
    shown = params.uri;
    return { success: true };
  });
  await client.request('workspace/executeCommand', explain?.command);
  expect(fs.readFileSync(new URL(shown), 'utf8')).toContain('`unit/missing`');
  await client.request('workspace/executeCommand', {
    command: 'fettle.explainFinding',
    arguments: ['../../package'],
  });
  client.close(uri);
});

it('all that is safe is fixed at once, and nothing else', async () => {
  client.open(
    uri,
    'machine: Toy\nmains: 230 V 50 hz\naxes:\n  X: { travel: 640 }\nwiring:\n  - a.1 => b.2\n',
  );
  await client.waitForDiagnostics(uri);
  const actions = await client.request<CodeAction[]>('textDocument/codeAction', {
    textDocument: { uri },
    range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
    context: { diagnostics: [], only: ['source.fixAll'] },
  });
  expect(actions.map(({ kind }) => kind)).toEqual(['source.fixAll.fettle']);
  client.applyEdit(actions[0]?.edit);
  expect(client.textOf(uri)).toBe(
    'machine: Toy\nmains: 230 V 50 Hz\naxes:\n  X: { travel: 640 }\nwiring:\n  - a.1 -> b.2\n',
  );
  client.close(uri);
});

describe('what is silenced is told all the same', () => {
  const silenced = TEXT.replace('640 }', '640 } # fettle silence unit/missing: read off the old drawing');

  it('in the summary', async () => {
    client.open(uri, silenced);
    await client.waitForDiagnostics(uri);
    const { patches } = await client.request<SummaryChanges>(SUMMARY_CHANGES, { uri, have: {} });
    const cautions = JSON.stringify(
      patches.filter((patch) => patch.kind === 'put' && patch.section === 'cautions'),
    );
    expect(cautions).toMatch(/Found and silenced.*error: .*640.*unit\/missing.*read off the old drawing/);
    client.close(uri);
  });

  it('in the status of the editor', async () => {
    client.open(uri, silenced);
    await client.waitForDiagnostics(uri);
    await expect
      .poll(() =>
        client.notified
          .filter(
            ({ method, params }) => method === 'fettle/checked' && (params as { uri: string }).uri === uri,
          )
          .map(({ params }) => (params as { covered: string }).covered),
      )
      .toEqual([expect.stringMatching(/, 1 silenced$/)]);
    client.close(uri);
  });

  it('in reports', () => {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'fettle-silence-'));
    const file = path.join(folder, 'x.machine.yaml');
    fs.writeFileSync(file, silenced);
    const report = (format: string) =>
      spawnSync(process.execPath, [path.join(ROOT, 'dist/cli.cjs'), 'report', '--format', format, file], {
        encoding: 'utf8',
      }).stdout;
    expect(JSON.parse(report('json')).silenced).toMatchObject([
      { code: 'unit/missing', severity: 'error', by: 'line', reason: 'read off the old drawing' },
    ]);
    expect(report('text')).toMatch(/Found and silenced\n\n {2}error: .*read off the old drawing/);
    expect(report('html')).toContain('read off the old drawing');
    fs.rmSync(folder, { recursive: true });
  });
});

describe('a project', () => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'fettle-project-'));
  const machine = path.join(folder, 'below', 'x.machine.yaml');
  const project = path.join(folder, '.fettle.yaml');
  fs.mkdirSync(path.dirname(machine));
  fs.writeFileSync(machine, TEXT);
  afterAll(() => fs.rmSync(folder, { recursive: true }));

  it('holds for the editor, from disk and while it is open, and for the command line', async () => {
    fs.writeFileSync(project, 'silence: { unit: old drawing }\n');
    const opened = await startClient({ folder: path.dirname(machine), pulls: true });
    const at = uriOf(machine);
    const codes = async () => {
      const report = await opened.pull(at);
      return report.kind === 'full' ? report.items.map(({ code, severity }) => `${severity} ${code}`) : [];
    };
    opened.open(at, TEXT);
    expect(await codes()).toEqual([]);
    opened.open(uriOf(project), 'severities: { unit: hint }\n', 'fettle-project');
    expect(await codes()).toEqual(['3 unit/missing', '3 unit/missing']);
    await opened.stop();

    const check = () =>
      spawnSync(
        process.execPath,
        [path.join(ROOT, 'dist/cli.cjs'), 'check', '--format', 'json', 'x.machine.yaml'],
        {
          encoding: 'utf8',
          cwd: path.dirname(machine),
        },
      );
    expect(check().status).toBe(0);
    fs.rmSync(project);
    expect(check().status).toBe(1);
  });

  it.each([
    ['at the top of the folder that is open', () => folder, () => folder],
    ['beside a machine that is in none', () => path.join(folder, 'elsewhere'), () => path.dirname(machine)],
  ])('is made by an action, in editors that can make files: %s', async (_, open, made) => {
    const opened = await startClient({
      folder: open(),
      pulls: true,
      capabilities: {
        workspace: { workspaceEdit: { documentChanges: true, resourceOperations: ['create'] } },
      },
    });
    const at = uriOf(machine);
    opened.open(at, TEXT);
    const report = await opened.pull(at);
    const actions = await opened.codeActions(at, report.kind === 'full' ? report.items : []);
    const action = actions.find(({ title }) => title === 'Silence unit/missing for this project');
    expect(action?.edit?.documentChanges).toMatchObject([
      { kind: 'create', uri: uriOf(path.join(made(), '.fettle.yaml')) },
      { edits: [{ newText: 'silence:\n  unit/missing: no reason given\n' }] },
    ]);
    await opened.stop();
    const without = await client.codeActions(uri, []);
    expect(without.filter(({ title }) => title.endsWith('project'))).toEqual([]);
  });
});
