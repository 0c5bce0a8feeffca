import { defineConfig } from 'vitest/config';

/** What a person does in a browser or reads off a printed page with a camera: slow, so a command of their own. */
export default defineConfig({
  test: {
    include: ['tests/journeys/**/*.test.ts'],
    passWithNoTests: true,
    testTimeout: 180_000,
    hookTimeout: 180_000,
    fileParallelism: false,
  },
});
