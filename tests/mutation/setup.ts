import { afterEach, beforeEach, inject } from 'vitest';

/** Runs before each test file: switches a mutant on, or writes down which mutants each test passes. */

/** What the instrumented code reads and writes. */
interface Switches {
  activeMutant?: string;
  hitCount?: number;
  hitLimit?: number;
  currentTestId?: string;
  mutantCoverage?: { static: Record<string, number>; perTest: Record<string, Record<string, number>> };
}

const { active, mostHits, sample, fileOf } = inject('mutation');
const switches: Switches = {};
Object.assign(globalThis, { __stryker__: switches });

if (active === undefined) {
  const sampled = new Set(sample);
  const pick = (counts: Record<string, number> = {}) =>
    Object.fromEntries(Object.entries(counts).filter(([id]) => sampled.has(id)));
  beforeEach(({ task }) => {
    switches.currentTestId = task.id;
  });
  afterEach(({ task }) => {
    delete switches.currentTestId;
    const counts = switches.mutantCoverage?.perTest[task.id];
    task.meta.hits = pick(counts);
    task.meta.loaded = Object.keys(pick(switches.mutantCoverage?.static));
    task.meta.files = [...new Set(Object.keys(counts ?? {}).map((id) => fileOf[Number(id)] ?? ''))];
    if (switches.mutantCoverage) switches.mutantCoverage.perTest = {};
  });
} else {
  Object.assign(switches, { activeMutant: active, hitCount: 0, hitLimit: mostHits });
}
