import { afterEach, beforeEach, inject } from 'vitest';

/** Runs before each test file: switches a mutant on, or writes down which mutants each test passes. */

/** What the instrumented code reads and writes. */
interface Switches {
  activeMutant?: string;
  hitCount?: number;
  hitLimit?: number;
  currentTestId?: string;
  /** Ours: a test has failed, so that nothing else need be loaded. */
  isNoticed?: boolean;
  mutantCoverage?: { static: Record<string, number>; perTest: Record<string, Record<string, number>> };
}

const { active, mostHits, sample, fileOf } = inject('mutation');
// Files that are tried share what they load, and with it the switches: they stay the same object.
const shared = globalThis as { __stryker__?: Switches };
shared.__stryker__ ??= {};
const switches = shared.__stryker__;

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
    task.meta.loaded = pick(switches.mutantCoverage?.static);
    task.meta.files = [...new Set(Object.keys(counts ?? {}).map((id) => fileOf[Number(id)] ?? ''))];
    if (switches.mutantCoverage) switches.mutantCoverage.perTest = {};
  });
} else {
  if (switches.isNoticed) throw new Error('the mutant is noticed already');
  switches.hitCount ??= 0;
  Object.assign(switches, { activeMutant: active, hitLimit: mostHits });
  afterEach(({ task }) => {
    if (task.result?.state === 'fail') switches.isNoticed = true;
  });
}
