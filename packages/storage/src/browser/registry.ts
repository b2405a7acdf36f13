import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { roomGuard } from './guard.ts';
import { type OpenLineFile, openLineFile } from './line-file.ts';
import type { Page } from './lines.ts';
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
const copyName = `${name}.jsonl`;

/**
 * Campaigns held on this device, the last opened first. Nothing is ever taken off the list: what the browser dropped
 * with its databases comes back from the list's second copy.
 */
export async function heldCampaigns(openFile: OpenLineFile = openLineFile): Promise<readonly HeldCampaign[]> {
  const db = await openRegistry();
  try {
    const all = await settled(db.getAll('campaigns'), 'Reading the list of campaigns', name);
    const known = new Set(all.map((one) => one.id));
    const dropped = (await readCopy(openFile)).filter((one) => !known.has(one.id));
    for (const one of dropped) await put(db, one);
    return [...all, ...dropped].sort((a, b) => (a.openedAt < b.openedAt ? 1 : -1));
  } finally {
    db.close();
  }
}

/** Puts a campaign on the list, or refreshes its line. */
export async function holdCampaign(
  campaign: HeldCampaign,
  openFile: OpenLineFile = openLineFile,
): Promise<void> {
  const db = await openRegistry();
  try {
    await put(db, campaign);
  } finally {
    db.close();
  }
  const file = await openFile(copyName);
  if (file === null) return;
  const lines = [JSON.stringify(campaign)];
  const work = async () => {
    // Another tab may add between the two.
    while ((await file.add(lines, (await file.end()).size)) === null);
  };
  await settled(work(), 'Saving the list', name);
}

async function put(db: IDBPDatabase<Layout>, campaign: HeldCampaign): Promise<void> {
  const tx = db.transaction('campaigns', 'readwrite', { durability: 'strict' });
  await settled(Promise.all([tx.store.put(campaign, campaign.id), tx.done]), 'Saving the list', name);
}

/** The last line of each campaign in the list's second copy. */
async function readCopy(openFile: OpenLineFile): Promise<readonly HeldCampaign[]> {
  const file = await openFile(copyName);
  if (file === null) return [];
  const byId = new Map<string, HeldCampaign>();
  for (let from: number | null = 0; from !== null; ) {
    const page: Page = await settled(file.page(from), 'Reading the list of campaigns', name);
    for (const line of page.lines) {
      const one = JSON.parse(line) as HeldCampaign;
      byId.set(one.id, one);
    }
    from = page.next;
  }
  return [...byId.values()];
}

async function openRegistry() {
  await roomGuard().begin();
  const opening = openDB<Layout>(name, 1, { upgrade: (db) => void db.createObjectStore('campaigns') });
  return settled(opening, 'Opening the list of campaigns', name);
}
