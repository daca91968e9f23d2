import { defineConfig } from 'vitest/config';

// Holds the circuit solver against ngspice, a general-purpose circuit simulator (Debian package `ngspice`).
export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: { include: ['tests/truth/**/*.test.ts'] },
});
