import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

const root = new URL('../../', import.meta.url);
const page = readFileSync(new URL('docs/architecture.md', root), 'utf8');
const paths = [...page.matchAll(/^\| ((?:`[^`]+`(?:, )?)+) \|/gm)].flatMap((row) =>
  [...(row[1] ?? '').matchAll(/`([^`]+)`/g)].map((path) => path[1] ?? ''),
);

describe('the architecture page is true', () => {
  test('it names paths', () => expect(paths.length).toBeGreaterThan(20));

  test.each(paths)('%s exists', (path) => expect(existsSync(new URL(path, root))).toBe(true));

  test('every folder of schemas, server and client stands in the code map', () => {
    const folders = ['server', 'server/core', 'client'].flatMap((parent) => foldersIn(parent));
    expect(folders.length).toBeGreaterThan(10);
    expect(
      folders.filter(
        (folder) => !paths.includes(folder) && folder !== 'server/core' && folder !== 'client/icons',
      ),
    ).toEqual([]);
  });

  test('the core has no clock, no randomness, no promise and no toJS', () => {
    const files = sourcesIn('server/core');
    expect(files.length).toBeGreaterThan(60);
    const guilty = files.filter((file) =>
      /\bDate\b|Math\.random|\bPromise\b|\basync\b|\.toJS\(/.test(
        stripComments(readFileSync(new URL(file, root), 'utf8')),
      ),
    );
    expect(guilty).toEqual([]);
  });

  test('no page is built from text as markup', () => {
    const files = sourcesIn('client');
    const guilty = files.filter((file) =>
      /innerHTML|outerHTML|insertAdjacentHTML|document\.write/.test(
        stripComments(readFileSync(new URL(file, root), 'utf8')),
      ),
    );
    expect(files.length).toBeGreaterThan(10);
    expect(guilty).toEqual([]);
  });
});

test('the top level is as it should be', () => {
  const visible = readdirSync(root).filter(
    (name) =>
      !name.startsWith('.') &&
      !['node_modules', 'dist', 'site', 'coverage'].includes(name) &&
      !name.endsWith('.vsix'),
  );
  expect(visible.sort()).toEqual([
    'CHANGELOG.md',
    'DEVELOPERS.md',
    'LICENSE',
    'README.md',
    'client',
    'docs',
    'examples',
    'l10n',
    'package-lock.json',
    'package.json',
    'package.nls.de.json',
    'package.nls.json',
    'schemas',
    'server',
    'tests',
    'tsconfig.json',
  ]);
});

function foldersIn(parent: string): string[] {
  return readdirSync(new URL(`${parent}/`, root))
    .map((name) => `${parent}/${name}`)
    .filter((path) => statSync(new URL(path, root)).isDirectory());
}

function sourcesIn(folder: string): string[] {
  return readdirSync(new URL(`${folder}/`, root), { recursive: true, encoding: 'utf8' })
    .map((name) => `${folder}/${name}`)
    .filter((path) => path.endsWith('.ts'));
}

function stripComments(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '$1');
}
