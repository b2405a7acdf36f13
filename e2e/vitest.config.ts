import { defineConfig } from 'vitest/config';

// Real browsers against a real server. One file after the other: two cores, and Chromium takes them.
export default defineConfig({
  test: {
    include: ['e2e/**/*.test.ts'],
    globalSetup: ['e2e/built.ts'],
    pool: 'forks',
    fileParallelism: false,
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
