import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

/** What the project stands on: pinned, reasoned, under licences that suit, and the same bytes wherever it is installed. */

const ROOT = path.resolve(import.meta.dirname, '../..');
const read = (file: string) => fs.readFileSync(path.join(ROOT, file), 'utf8');

interface Locked {
  readonly version: string;
  readonly license?: string;
  readonly integrity?: string;
  readonly resolved?: string;
  readonly link?: boolean;
  readonly hasInstallScript?: boolean;
}
const manifest: { readonly devDependencies: Readonly<Record<string, string>> } = JSON.parse(
  read('package.json'),
);
const lock: { readonly packages: Readonly<Record<string, Locked>> } = JSON.parse(read('package-lock.json'));
const locked = Object.entries(lock.packages).filter(([name]) => name !== '');
const nameOf = (place: string) => place.replace(/^.*node_modules\//, '');

/** The rows of the tables: the packages that a row is about, and the licence at its end. */
const documented = read('docs/dependencies.md')
  .split('\n')
  .filter((line) => /^\| (?!package|---)/.test(line))
  .map((line) => line.split('|').map((cell) => cell.trim()))
  .map((cells) => ({
    names: cells[1]?.split(', ') ?? [],
    reason: cells[2] ?? '',
    licence: cells.at(-2) ?? '',
  }));

/** Licences, as SPDX calls them, under which a tool may be used here. What ships is held to fewer. */
const FOR_TOOLS = [
  'MIT',
  'MIT OR Apache-2.0',
  'Apache-2.0',
  'ISC',
  'BSD-2-Clause',
  'BSD-3-Clause',
  // Data about browsers, which the instrumenter of mutants reads; nothing of it ships.
  'CC-BY-4.0',
  '0BSD',
  'BlueOak-1.0.0',
  'Python-2.0',
  'Artistic-2.0',
  'MPL-2.0',
  'EPL-2.0 OR GPL-3.0-or-later',
];
/** Packages whose own text is their licence: the editor's signing tool, which packing brings and nothing here calls. */
const OWN_TERMS = /^@vscode\/vsce-sign/;

/** What runs a script when it is installed, each with why it may. None of it is in the package. */
const WITH_SCRIPT: Readonly<Record<string, string>> = {
  node: 'puts the binary of this system in its place',
  esbuild: 'the same',
  '@vscode/vsce-sign': 'the same; comes with vsce',
};

describe('dependencies', () => {
  const names = Object.keys(manifest.devDependencies);

  it('are pinned exactly, and locked to what is pinned', () => {
    expect(names.length).toBeGreaterThan(20);
    for (const [name, version] of Object.entries(manifest.devDependencies)) {
      expect(version, name).toMatch(/^\d+\.\d+\.\d+(?:-[\w.]+)?$/);
      expect(lock.packages[`node_modules/${name}`]?.version, name).toBe(version);
    }
  });

  it('have a row with a reason and their licence, and every row is of a dependency', () => {
    expect(documented.flatMap((row) => row.names).toSorted()).toEqual(names.toSorted());
    for (const { names: of, reason, licence } of documented)
      for (const name of of) {
        expect(reason.length, name).toBeGreaterThan(8);
        const own = lock.packages[`node_modules/${name}`]?.license ?? '';
        expect(
          own.split(' OR ').some((each) => licence.split(' or ').includes(each)),
          `${name}: ${own}`,
        ).toBe(true);
      }
  });
});

describe('known weaknesses', async () => {
  const { judgeAudit } = await import(path.join(ROOT, '.project/audit.mjs'));
  const report = (high: number, low: number) =>
    `npm warn old lock file\n${JSON.stringify({ vulnerabilities: { toy: {} }, metadata: { vulnerabilities: { high, critical: 0, total: high + low } } })}\n`;

  it('fail the gate when one is grave', () => {
    expect(() => judgeAudit(report(1, 0))).toThrow(/1 of them grave, in: toy/);
  });

  it('are counted when none is', () => {
    expect(judgeAudit(report(0, 2))).toMatch(/^2 known weaknesses/);
  });

  it.each([
    [
      'refuses',
      'npm warn audit 405\n{ "message": "405 Method Not Allowed - POST somewhere", "method": "POST" }\n',
    ],
    ['cannot be reached', '{ "message": "request failed", "error": {} }'],
    ['says nothing', ''],
    ['says something else', '<html>{}</html>'],
  ])('are told not to have been looked up when the registry %s', (_, output) => {
    expect(judgeAudit(output)).toMatch(/^KNOWN WEAKNESSES WERE NOT LOOKED UP/);
  });
});

describe('the lock file', () => {
  it('has a hash of every package, so that nobody gets other bytes', () => {
    expect(locked.length).toBeGreaterThan(100);
    for (const [place, { integrity }] of locked) expect(integrity, place).toMatch(/^sha512-[\w+/]{86}==$/);
  });

  it('takes every package from the registry in use, and names no other place', () => {
    for (const [place, { resolved, link }] of locked)
      expect([resolved, link], place).toEqual([undefined, undefined]);
  });

  it('has no licence that nobody has agreed to', () => {
    const others = locked.filter(
      ([place, { license }]) => !FOR_TOOLS.includes(license ?? '') && !OWN_TERMS.test(nameOf(place)),
    );
    expect(others.map(([place, { license }]) => `${place}: ${license}`)).toEqual([]);
  });

  it('lets no package run a script when it is installed but those that are known to', () => {
    const scripted = locked.filter(([, { hasInstallScript }]) => hasInstallScript);
    expect(scripted.map(([place]) => nameOf(place)).toSorted()).toEqual(Object.keys(WITH_SCRIPT).toSorted());
  });
});
