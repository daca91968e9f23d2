import fs from 'node:fs';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { ROOT } from '../support/lsp-client.ts';
import { TARGETS } from './targets.ts';

/** Every fault that was ever found by trying very many cases, in the smallest case that showed it. */
const FOUND = path.join(ROOT, 'tests/fuzz/found');

interface Found {
  readonly target: string;
  readonly message: string;
  readonly stored: unknown;
}

const found = fs
  .readdirSync(FOUND)
  .filter((name) => name.endsWith('.json'))
  .map((name) => [name, JSON.parse(fs.readFileSync(path.join(FOUND, name), 'utf8')) as Found] as const);

afterAll(async () => {
  for (const target of TARGETS) await target.stop?.();
});

describe('what was found stays cured', () => {
  it('is there', () => expect(found.length).toBeGreaterThan(3));
  it.each(found)('%s', async (_, { target: name, stored }) => {
    const target = TARGETS.find((each) => each.name === name);
    expect(target).toBeDefined();
    await target?.replay(stored);
  });
});
