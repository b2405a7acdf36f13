import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, it } from 'vitest';
import { storeCases, suiteCampaign } from '../store.suite.ts';
import { backUp } from './backup.ts';
import { campaignPaths } from './folder.ts';
import { lockFolder } from './lock.ts';
import { restore } from './restore.ts';
import { openSqliteStore } from './store.ts';

describe('SQLite store: conformance', () => {
  for (const { title, run } of storeCases) {
    it(title, async () => {
      const root = mkdtempSync(join(tmpdir(), 'firnbook-store-'));
      const data = join(root, 'data');
      try {
        await run({
          open: async () => openSqliteStore(campaignPaths(data, suiteCampaign).journal, suiteCampaign),
          restored: async () => {
            const backup = await backUp(data, suiteCampaign, join(root, 'stick'));
            const other = join(root, 'other');
            const lock = lockFolder(other, 'the test');
            await restore(lock, backup.folder, false);
            lock.release();
            return openSqliteStore(campaignPaths(other, suiteCampaign).journal, suiteCampaign);
          },
        });
      } finally {
        rmSync(root, { recursive: true, force: true });
      }
    });
  }
});
