import { globSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { machineSchema } from '../../schemas/machine.ts';
import { sheetSchema } from '../../schemas/sheet.ts';
import { checkShape } from '../../server/core/shape/check.ts';
import { machineShape, sheetShape } from '../../server/core/shape/shapes.ts';
import { readTree } from '../../server/core/syntax/tree.ts';

const ROOT = path.join(import.meta.dirname, '../..');
const FOLDER = path.join(import.meta.dirname, 'fixtures');

/** Which of the two judges is content: the schema (zod) and our own checker. */
const VERDICTS = {
  valid: { schema: true, checker: true },
  invalid: { schema: false, checker: false },
  // A schema's patterns are coarser than our readers; each of these files says where.
  finer: { schema: true, checker: false },
  // Where the checker takes more than the schema; each of these files says why.
  kinder: { schema: false, checker: true },
};

const KINDS = {
  machine: { schema: machineSchema, shape: machineShape },
  part: { schema: sheetSchema, shape: sheetShape },
};

describe.for(Object.entries(KINDS))('fixtures of a %s', ([kind, { schema, shape }]) => {
  describe.for(Object.entries(VERDICTS))('that are %s', ([verdict, expected]) => {
    const files = globSync(`${kind}/${verdict}/*.yaml`, { cwd: FOLDER }).sort();

    test('are there', () => {
      expect(files.length).toBeGreaterThan(kind === 'part' && verdict === 'kinder' ? -1 : 0);
    });

    test.for(files)('%s', (file) => {
      const text = readFileSync(path.join(FOLDER, file), 'utf8');
      const tree = readTree(text);
      expect(tree.problems).toEqual([]);
      const problems = checkShape(tree.root, shape);
      expect({
        schema: schema.safeParse(parse(text)).success,
        checker: problems.length === 0,
        problems: problems.map((problem) => problem.code),
      }).toMatchObject(expected);
      // Each fixture has one mistake, and one mistake gives one finding.
      expect(problems.length).toBeLessThanOrEqual(1);
    });
  });
});

describe.for(Object.entries(KINDS))('shipped files of a %s', ([kind, { schema, shape }]) => {
  const files = globSync([`examples/**/*.${kind}.yaml`, `server/parts/**/*.${kind}.yaml`], {
    cwd: ROOT,
  }).sort();

  test('are there', () => {
    expect(files.length).toBeGreaterThan(0);
  });

  test.for(files)('%s is faultless', (file) => {
    const text = readFileSync(path.join(ROOT, file), 'utf8');
    expect(schema.safeParse(parse(text)).error).toBeUndefined();
    expect(checkShape(readTree(text).root, shape)).toEqual([]);
  });
});
