import { afterEach, beforeEach, describe, it } from 'vitest';
import { storeCases, suiteCampaign } from '../store.suite.ts';
import { lendIndexedDb } from './fake.suite.ts';
import { openBrowserStore } from './store.ts';

describe('Browser store: conformance', () => {
  let giveBack: () => void;
  beforeEach(() => {
    giveBack = lendIndexedDb();
  });
  afterEach(() => giveBack());
  for (const { title, run } of storeCases)
    it(title, () => run({ open: () => openBrowserStore(suiteCampaign), restored: null }));
});
