import { defineConfig } from 'vitest/config';

// Tests of what was built: the bundles in dist and the packed extension. They start processes, so they get more time.
export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/{bundle,fuzz,programs,protocol}/**/*.test.ts'],
    // A busy machine is no fault; how fast anything is, only the benchmark says.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    maxWorkers: 2,
  },
});
