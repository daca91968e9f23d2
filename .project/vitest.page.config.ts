import { defineConfig } from 'vitest/config';

// Tests of the built wiring summary page in a real browser. One file at a time, since a browser takes both cores.
export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/page/**/*.test.ts'],
    // What a page comes to show is waited for as long as a busy machine needs.
    expect: { poll: { timeout: 30_000 } },
    testTimeout: 120_000,
    hookTimeout: 120_000,
    fileParallelism: false,
  },
});
