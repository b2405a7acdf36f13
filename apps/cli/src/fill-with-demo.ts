import { demoEntries } from '@firnbook/demo';
import { open, openReplica } from '@firnbook/journal';
import { campaignPaths, listCampaigns, lockFolder, openSqliteStore } from '@firnbook/storage/sqlite';
import { source } from './camp.ts';
import { CommandError } from './refusal.ts';

/**
 * Fills a data folder that holds no campaign with the invented one, through a replica like everything else.
 *
 * @returns how many entries; null where the folder holds a campaign already
 * @throws StoreTrouble 'locked' when another process has the folder
 */
export const fillWithDemo = async (folder: string): Promise<number | null> => {
  const lock = lockFolder(folder, 'firnbook start');
  try {
    if (listCampaigns(folder).length > 0) return null;
    const entries = demoEntries();
    const first = entries[0] === undefined ? null : open(entries[0]);
    if (!first?.ok) throw new Error('the demo holds no readable entry');
    const { campaign } = first.entry.header;
    const store = openSqliteStore(campaignPaths(folder, campaign).journal, campaign);
    try {
      const replica = await openReplica(store, source);
      const { added, refused } = await replica.take(entries);
      if (refused[0] !== undefined)
        throw new CommandError(`the demo was refused: ${refused[0].problem}`, folder, 'Please report this.');
      return added.length;
    } finally {
      await store.close();
    }
  } finally {
    lock.release();
  }
};
