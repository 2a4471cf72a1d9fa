// The tests that drive the real program in a real browser: npm run e2e. Two files at a time.
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: fileURLToPath(new URL('..', import.meta.url)),
    include: ['e2e/**/*.e2e.mjs'],
    testTimeout: 240_000,
    hookTimeout: 60_000,
    maxWorkers: 2,
  },
});
