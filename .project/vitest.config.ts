import { defineConfig } from 'vitest/config';

// Tests that need npm alone; the ones that need a browser, an editor or a built bundle have their own runners.
export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    setupFiles: ['tests/support/foreign-reads.ts'],
    // A busy machine is no fault; how fast anything is, only the benchmark says.
    testTimeout: 120_000,
    // By default one processor is left to whoever sits before the machine, which is half of two.
    maxWorkers: '100%',
    include: [
      'tests/{mistakes,core,files,docs,references,schemas,findings,project,command,site}/**/*.test.ts',
    ],
    coverage: {
      include: ['server/{command,core,files}/**/*.ts', 'schemas/**/*.ts'],
      reporter: ['text-summary', 'json-summary'],
      reportsDirectory: '.cache/coverage',
    },
  },
});
