import { globSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { importsOf } from '../../support/import-graph.ts';

const ROOT = path.join(import.meta.dirname, '../../..');

/** The files and packages that are loaded with some files, types left out. */
function reach(files: readonly string[]): Set<string> {
  const seen = new Set<string>();
  const open = [...files];
  for (let file = open.pop(); file !== undefined; file = open.pop()) {
    if (seen.has(file)) continue;
    seen.add(file);
    if (!file.endsWith('.ts')) continue;
    for (const { specifier, target, typeOnly } of importsOf(
      file,
      readFileSync(path.join(ROOT, file), 'utf8'),
    )) {
      if (!typeOnly) open.push(target ?? specifier);
    }
  }
  return seen;
}

// Loading zod and building the schemas takes longer than all else that happens before the first answer.
test('the core loads no schema library', () => {
  const core = globSync('server/core/**/*.ts', { cwd: ROOT });
  const loaded = reach(core);
  expect(core.length).toBeGreaterThan(20);
  expect(loaded).toContain('schemas/roles.ts');
  expect(loaded).not.toContain('zod');
});

test('the schemas would be noticed', () => {
  expect(reach(['schemas/machine.ts'])).toContain('zod');
});
