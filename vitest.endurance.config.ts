import { defineConfig } from 'vitest/config';

/** What takes minutes: many processes on one book, a server killed over and over, a full disk, a hundred thousand bad requests. */
export default defineConfig({
  test: {
    include: ['tests/endurance/**/*.test.ts'],
    testTimeout: 600_000,
    hookTimeout: 60_000,
    fileParallelism: false,
  },
});
