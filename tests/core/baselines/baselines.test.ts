import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { createFettle } from '../../../server/core/fettle.ts';
import { worldOf } from '../../support/world.ts';
import { deriveViews } from './views.ts';

/*
 * One folder an example, with everything that is derived from it side by side. `npm run baselines` writes them anew;
 * the diff is what a reviewer reads.
 */
const examples = new URL('../../../examples/', import.meta.url);
const baselines = new URL('../../baselines/', import.meta.url);
const isUpdating = process.env.UPDATE_BASELINES === '1';
const names = readdirSync(examples);

test('there are examples', () => expect(names.length).toBeGreaterThan(0));

describe.each(names)('%s', (name) => {
  const folder = new URL(`${name}/`, examples);
  const files = new Map(
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.yaml'))
      .map((file) => [file, readFileSync(new URL(file, folder), 'utf8')]),
  );
  const fettle = createFettle(worldOf(files));
  const machine = [...files.keys()].find((file) => file.endsWith('.machine.yaml')) ?? '';
  const views = deriveViews(fettle, fettle.analyse(machine, files.get(machine) ?? ''));

  test.each([...views])('%s', (view, text) => {
    const file = new URL(`${name}/${view}`, baselines);
    if (isUpdating) {
      mkdirSync(new URL('.', file), { recursive: true });
      writeFileSync(file, text);
    }
    expect(text).toBe(readFileSync(file, 'utf8'));
  });
});
