import { defineConfig } from 'vitest/config';

// Tests that need npm alone; the ones that need a browser, an editor or a built bundle have their own runners.
export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/{core,docs,references,schemas,findings,project,command}/**/*.test.ts'],
    coverage: { include: ['server/core/**/*.ts', 'schemas/**/*.ts'], reporter: ['text-summary'] },
  },
});
