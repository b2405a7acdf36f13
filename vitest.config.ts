import { defineConfig } from 'vitest/config';

// One process pool without isolation: on two cores the default isolation costs twelve times the time.
// The price: a test leaves no global state behind. Sources are resolved directly, so no build is needed.
const conditions = ['source', 'module', 'import', 'default'];

export default defineConfig({
  resolve: { conditions },
  ssr: { resolve: { conditions, externalConditions: conditions } },
  test: {
    include: [
      '{packages,apps}/*/src/**/*.test.{ts,tsx}',
      '{demo,bench,docs}/src/**/*.test.ts',
      'tools/**/*.test.ts',
    ],
    pool: 'forks',
    isolate: false,
    maxWorkers: 2,
    testTimeout: 60_000,
  },
});
