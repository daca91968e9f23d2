import { defineConfig } from 'vitest/config';

// Tests inside other programs: Neovim, a real workbench. One file at a time, since each takes both cores.
export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/{editors,workbench}/**/*.test.ts'],
    // What a page comes to show is waited for as long as a busy machine needs.
    expect: { poll: { timeout: 30_000 } },
    testTimeout: 300_000,
    hookTimeout: 240_000,
    fileParallelism: false,
    // A window that gets no processor for long loses keys. What is wrong is wrong the second time as well.
    retry: 1,
  },
});
