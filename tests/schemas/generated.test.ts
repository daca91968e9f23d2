import { execFileSync as run } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { CIRCUIT_KINDS, FACTS_BY_CLASS } from '../../schemas/index.ts';
import { machineSchema } from '../../schemas/machine.ts';
import { sheetSchema } from '../../schemas/sheet.ts';
import { checkShape } from '../../server/core/shape/check.ts';
import type { Key, Shape } from '../../server/core/shape/shape.ts';
import { machineShape, sheetShape } from '../../server/core/shape/shapes.ts';
import { readTree } from '../../server/core/syntax/tree.ts';

const ROOT = path.join(import.meta.dirname, '../..');
const reference = readFileSync(path.join(ROOT, 'docs/format.md'), 'utf8');

test.for(['generate-schemas', 'generate-shapes', 'generate-format-reference'])(
  'what %s makes is in step',
  (name) => {
    // The script names the file that differs, and ends with an error.
    expect(run(process.execPath, [`.project/${name}.ts`, '--check'], { cwd: ROOT, encoding: 'utf8' })).toBe(
      '',
    );
  },
);

test('the examples of the reference are faultless', () => {
  const [machine = '', sheet = '', ...rest] = [...reference.matchAll(/```yaml\n(.*?)```/gs)].map(
    ([, text]) => text,
  );
  expect(rest).toEqual([]);
  expect(machineSchema.safeParse(parse(machine)).error).toBeUndefined();
  expect(sheetSchema.safeParse(parse(sheet)).error).toBeUndefined();
  expect(checkShape(readTree(machine).root, machineShape)).toEqual([]);
  expect(checkShape(readTree(sheet).root, sheetShape)).toEqual([]);
});

test('every key and every choice has a text in full sentences', () => {
  const keys = [...keysOf(machineShape), ...keysOf(sheetShape)];
  expect(keys.length).toBeGreaterThan(300);
  for (const key of keys) {
    expect(key.doc, key.name).toMatch(/^.{10,}[.]$/s);
    const leaf = key.shape.kind === 'leaf' ? key.shape.leaf : undefined;
    if (leaf?.kind !== 'choice') continue;
    for (const [word, doc] of Object.entries(leaf.choices)) expect(doc, word).toMatch(/^.{5,}[.]$/s);
  }
});

test('the reference names every key, every kind of circuit and every fact', () => {
  const names = [
    ...keysOf(machineShape).map((key) => key.name),
    ...CIRCUIT_KINDS.keys(),
    ...Object.values(FACTS_BY_CLASS).flat(),
  ];
  expect(names.length).toBeGreaterThan(300);
  for (const name of names) expect(reference).toContain(`\`${name}\``);
});

test('every fact belongs to a class', () => {
  const facts = sheetShape.keys.get('facts')?.shape;
  const known = facts?.kind === 'map' ? [...facts.keys.keys()] : [];
  expect(known.length).toBeGreaterThan(10);
  expect(new Set(Object.values(FACTS_BY_CLASS).flat())).toEqual(new Set(known));
});

function keysOf(shape: Shape): Key[] {
  switch (shape.kind) {
    case 'leaf':
      return [];
    case 'map':
      return [...shape.keys.values()].flatMap((key) => [key, ...keysOf(key.shape)]);
    case 'kinds':
      return [...shape.kinds.values()].flatMap(keysOf);
    case 'entries':
      return keysOf(shape.value);
    case 'list':
      return keysOf(shape.item);
    case 'either':
      return shape.branches.flatMap(keysOf);
  }
}
