import { defineConfig } from 'vitest/config';

// Real browsers against a real server. One file after the other: two cores, and Chromium takes them.
export default defineConfig({
  test: {
    include: ['e2e/**/*.test.ts'],
    globalSetup: ['e2e/built.ts'],
    pool: 'forks',
    fileParallelism: false,
    testTimeout: 120_000,
    // Real browsers on a machine that does other things: what failed once is tried again, and the report says so.
    retry: process.env.CI ? 1 : 0,
    hookTimeout: 120_000,
    // Lists follow a form once the depths are solved, and two cores can be busy with something else.
    expect: { poll: { timeout: 30_000, interval: 100 } },
  },
});
