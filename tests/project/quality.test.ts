import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { PROMISES, SIZES } from '../bench/promises.ts';
import type { BenchRow } from '../bench/row.ts';
import { addUpFolders } from '../quality/coverage.ts';
import { renderPage } from '../quality/page.ts';
import { PARTS } from '../quality/parts.ts';
import { speed } from '../quality/speed.ts';
import { readStored } from '../quality/stored.ts';
import { ROOT } from '../support/lsp-client.ts';

const page = readFileSync(new URL('../../docs/quality.md', import.meta.url), 'utf8');
const stored = readStored();
const sections = page.split(/^## /m).slice(1);
const MADE =
  /^Made on \d{4}-\d\d-\d\d: \d+ cores, Node \d+, \w+ \w+(?:, [\d.]+ processes running when it began)?\.$/m;

describe('the page of figures', () => {
  test('says what is stored, and is written by the program alone', () => {
    expect(page).toBe(renderPage(stored));
  });

  test('has every part, with a table of figures, the day and the kind of machine, or that it was not measured', () => {
    expect(sections.map((section) => section.split('\n')[0])).toEqual(PARTS.map(({ title }) => title));
    for (const [index, { name }] of PARTS.entries()) {
      const section = sections[index];
      if (!stored[name]) {
        expect(section).toContain(`Not measured yet: \`npm run quality -- ${name}\`.`);
        continue;
      }
      expect(section, name).toMatch(/^\| .*\d.* \|$/m);
      expect(section, name).toMatch(MADE);
    }
    expect(Object.keys(stored).length).toBeGreaterThan(3);
  });

  test('has no figure that is none, and names no machine, only its kind', () => {
    expect(page).not.toMatch(/NaN|undefined|null|Infinity|\[object/);
    expect(page).not.toContain(ROOT);
  });

  test('says of a part without figures that it was not measured', () => {
    const empty = renderPage({});
    for (const { name } of PARTS)
      expect(empty).toContain(`Not measured yet: \`npm run quality -- ${name}\`.`);
    expect(empty).not.toMatch(/^\|/m);
  });
});

describe('coverage', () => {
  const half = { total: 10, covered: 5 };
  const counts = { lines: half, branches: half, functions: half };

  test.each([ROOT, path.resolve('/another', 'clone')])('is added up by folders, of a run in %s', (root) => {
    const files = [
      'server/core/fettle.ts',
      'server/core/units/index.ts',
      'server/core/circuits/nets.ts',
      'server/core/circuits/solve/board.ts',
      'server/command/check/run.ts',
      'server/files/paths.ts',
      'schemas/axes.ts',
    ];
    const report = files.map((file) => [path.join(root, file), counts] as const);
    const folders = addUpFolders(Object.fromEntries([['total', counts], ...report]));
    expect(Object.keys(folders)).toEqual([
      'all',
      'schemas',
      'server/command',
      'server/core',
      'server/core/circuits',
      'server/core/units',
      'server/files',
    ]);
    expect(folders['server/core/circuits']?.lines).toEqual({ total: 20, covered: 10 });
  });

  test('is not added up of a report that is of something else', () => {
    expect(() => addUpFolders({ total: counts, '/another/project/index.ts': counts })).toThrow('fettle.ts');
  });
});

describe('every promise at every size', () => {
  const measured = (times: number): readonly BenchRow[] =>
    Object.entries(PROMISES).flatMap(([promise, { what, unit, budgets }]) =>
      SIZES.map((lines, index) => ({
        promise: promise as keyof typeof PROMISES,
        what,
        lines,
        value: (budgets[index] ?? 0) * times,
        unit,
        budget: budgets[index] ?? 0,
        detail: '',
      })),
    );
  const cellsOf = (rows: readonly BenchRow[]) =>
    Object.values(PROMISES).map(({ what, unit }) => {
      const row = speed
        .show(rows)
        .split('\n')
        .find((line) => line.startsWith(`| ${what}, ${unit} |`));
      return row
        ?.split(' | ')
        .slice(1)
        .map((cell) => cell.replace(/ \|$/, ''));
    });

  test('stands beside what was measured, met up to the budget and not beyond', () => {
    for (const [times, verdict] of [
      [0.5, 'met'],
      [1, 'met'],
      [1.5, '**not met**'],
    ] as const) {
      const cells = cellsOf(measured(times));
      for (const [index, { budgets }] of Object.values(PROMISES).entries())
        for (const [at, budget] of budgets.entries())
          expect(cells[index]?.[at]).toMatch(
            new RegExp(`^[\\d.,]+ of ${budget}: ${verdict.replaceAll('*', '\\*')}$`),
          );
    }
  });

  test('is not met where nothing could be measured, and said where nothing was', () => {
    const untold = measured(1).map((row) => ({ ...row, value: Number.NaN }));
    expect(cellsOf(untold)[0]?.[0]).toBe('not told by this system of 2: **not met**');
    expect(cellsOf([])[0]).toEqual(SIZES.map(() => 'not measured'));
  });
});
