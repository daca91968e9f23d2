import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { createFettle } from '../../../server/core/fettle.ts';
import { readExamples } from '../../support/examples.ts';
import { worldOf } from '../../support/world.ts';
import { deriveViews } from './views.ts';

/*
 * One folder an example, with everything that is derived from it side by side. `npm run baselines` writes them anew;
 * the diff is what a reviewer reads.
 */
const baselines = new URL('../../baselines/', import.meta.url);
const isUpdating = process.env.UPDATE_BASELINES === '1';
const examples = readExamples();

test('there are examples', () => expect(examples.length).toBeGreaterThan(0));

describe.each(examples)('$name', ({ name, machine, files }) => {
  const fettle = createFettle(worldOf(files));
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
