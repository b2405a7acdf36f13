import { createMemoryDisk, createMemoryStore } from '@firnbook/journal';
import { describe, it } from 'vitest';
import { storeCases, suiteCampaign } from './store.suite.ts';

describe("The simulator's memory store: conformance", () => {
  for (const { title, guard, run } of storeCases) {
    if (guard) continue;
    it(title, () => {
      const disk = createMemoryDisk('the first life');
      return run({ open: async () => createMemoryStore(suiteCampaign, disk), restored: null });
    });
  }
});
