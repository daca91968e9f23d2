import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { findViolations, importsOf, type Ring, ringOf } from '../support/import-graph.ts';

const ROOT = path.resolve(import.meta.dirname, '../..');
const PROTOCOL = 'server/protocol/private.ts';
const MESSAGES = 'client/features/summary/messages.ts';
const SUMMARY = 'server/core/summary';
const LANGUAGE = 'server/core/language';

/** Three rings, one direction: core <- server <- client. What is not listed here may not be imported. */
const RINGS: readonly Ring[] = [
  { name: 'schemas', folder: 'schemas', files: [], packages: ['zod'] },
  { name: 'core', folder: 'server/core', files: ['schemas'], packages: ['yaml', 'zod'] },
  {
    name: 'server',
    folder: 'server',
    files: ['server/core', 'schemas', 'package.json'], // package.json for the version
    packages: ['node:', 'vscode-languageserver', 'vscode-languageserver-textdocument', 'vscode-uri', 'elkjs'],
  },
  // Page and client show what the server sends: they share its description of a view, and know nothing of machines.
  {
    name: 'page',
    folder: 'client/page',
    files: [SUMMARY, LANGUAGE],
    types: [PROTOCOL, MESSAGES],
    packages: ['elkjs'],
  },
  {
    name: 'client',
    folder: 'client',
    files: [PROTOCOL, `${SUMMARY}/view.ts`],
    types: [`${LANGUAGE}/say.ts`],
    packages: ['node:', 'vscode', 'vscode-languageclient'],
  },
];

/** Inside the core, each folder stands on those before it. */
const STAGES = [
  'syntax',
  'units',
  'motion',
  'model',
  'names',
  'circuits',
  'values',
  'findings',
  'features',
  'summary',
] as const;

const files = RINGS.flatMap((ring) => listFiles(ring.folder)).filter(
  (file, i, all) => all.indexOf(file) === i,
);
const texts = new Map(files.map((file) => [file, fs.readFileSync(path.join(ROOT, file), 'utf8')]));
const imports = [...texts].flatMap(([file, text]) => importsOf(file, text));

describe('directions of imports', () => {
  it('looks at every ring', () => {
    for (const ring of RINGS) {
      expect(files.filter((file) => ringOf(RINGS, file) === ring).length, ring.name).toBeGreaterThan(2);
    }
    expect(files.length).toBeGreaterThan(100);
    expect(imports.length).toBeGreaterThan(files.length);
  });

  it('sees every import that is written', () => {
    for (const [file, text] of texts) {
      const written =
        text.match(/^import\s|^export\s+(?:type\s+)?[{*][^=;()]*?from\s|\bimport\(\s*['"]/gm) ?? [];
      expect(importsOf(file, text).length, file).toBe(written.length);
    }
  });

  it('finds none that goes outwards', () => {
    expect(findViolations(RINGS, imports)).toEqual([]);
  });

  it('would find one that does', () => {
    const wrong = [
      ['server/core/a.ts', "import fs from 'node:fs';"],
      ['server/core/b.ts', "import type { X } from '../protocol/private.ts';"],
      ['server/core/c.ts', "const late = await import('vscode-uri');"],
      ['server/d.ts', "import {\n  window,\n} from 'vscode';"],
      ['server/e.ts', "export * from '../client/extension.ts';"],
      ['client/f.ts', "import { readTree } from '../server/core/syntax/tree.ts';"],
      ['client/page/g.ts', "import 'node:path';"],
      ['client/page/h.ts', "import { STALE } from '../../server/protocol/private.ts';"],
      ['schemas/i.ts', "import type { Node } from '../server/core/syntax/node.ts';"],
    ] as const;
    for (const [file, text] of wrong)
      expect(findViolations(RINGS, importsOf(file, text)), text).toHaveLength(1);
  });

  it('lets each stage of the core stand on those before it', () => {
    const stageOf = (file: string) => STAGES.findIndex((stage) => file.startsWith(`server/core/${stage}/`));
    const against = imports.filter(({ from, target }) => {
      if (target === undefined || stageOf(from) < 0 || stageOf(target) < 0) return false;
      return stageOf(target) > stageOf(from);
    });
    expect(against.map(({ from, target }) => `${from} imports ${target}`)).toEqual([]);
    for (const stage of STAGES)
      expect(
        files.some((file) => file.startsWith(`server/core/${stage}/`)),
        stage,
      ).toBe(true);
  });

  it('lets no product code import tests', () => {
    expect(imports.filter(({ target }) => target?.startsWith('tests/'))).toEqual([]);
  });
});

function listFiles(folder: string): string[] {
  return fs
    .readdirSync(path.join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts') && !file.includes('node_modules'))
    .map((file) => path.posix.join(folder, file.split(path.sep).join('/')));
}
