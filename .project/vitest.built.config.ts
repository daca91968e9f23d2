import { defineConfig } from 'vitest/config';

// Tests of what was built: the bundles in dist and the packed extension. They start processes, so they get more time.
export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/{bundle,fuzz,programs,protocol}/**/*.test.ts'],
    testTimeout: 20_000,
    maxWorkers: 2,
  },
});
