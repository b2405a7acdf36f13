import { type DBSchema, openDB } from 'idb';
import { settled } from './settled.ts';

/** A campaign that has a journal on this device. */
export interface HeldCampaign {
  readonly id: string;
  /** What the person sees in the list before the journal is read. */
  readonly name: string;
  readonly invented: boolean;
  /** ISO 8601: when it was last opened here. */
  readonly openedAt: string;
}

interface Layout extends DBSchema {
  campaigns: { key: string; value: HeldCampaign };
}

const name = 'firnbook-registry';

/** Campaigns held on this device, the last opened first. Nothing is ever taken off the list. */
export async function heldCampaigns(): Promise<readonly HeldCampaign[]> {
  const db = await openRegistry();
  try {
    const all = await settled(db.getAll('campaigns'), 'Reading the list of campaigns', name);
    return all.sort((a, b) => (a.openedAt < b.openedAt ? 1 : -1));
  } finally {
    db.close();
  }
}

/** Puts a campaign on the list, or refreshes its line. */
export async function holdCampaign(campaign: HeldCampaign): Promise<void> {
  const db = await openRegistry();
  try {
    const tx = db.transaction('campaigns', 'readwrite', { durability: 'strict' });
    await settled(Promise.all([tx.store.put(campaign, campaign.id), tx.done]), 'Saving the list', name);
  } finally {
    db.close();
  }
}

function openRegistry() {
  const opening = openDB<Layout>(name, 1, { upgrade: (db) => void db.createObjectStore('campaigns') });
  return settled(opening, 'Opening the list of campaigns', name);
}
