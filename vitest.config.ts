import { defineConfig } from 'vitest/config';

/** One run for all folders of tests; the browser journeys have a command of their own. */
export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/journeys/**', 'tests/endurance/**', 'node_modules/**'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
