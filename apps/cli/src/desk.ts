import { join } from 'node:path';
import { type Book, type Context, createBook } from '@firnbook/campaign';
import {
  type Draft,
  type Entry,
  newId,
  openReplica,
  type Replica,
  type Signer,
  type Store,
} from '@firnbook/journal';
import {
  campaignPaths,
  isTrouble,
  listCampaigns,
  lockFolder,
  openDeviceKey,
  openSqliteStore,
  verifyEd25519,
} from '@firnbook/storage/sqlite';
import { type Camp, reachCamp, source } from './camp.ts';
import { CommandError, complaintOf } from './refusal.ts';

/** One campaign as the command line holds it: a device's own copy, synced with the camp computer's. */
export interface OpenBook {
  readonly campaign: string;
  readonly replica: Replica;
  readonly book: Book;
  /** Why the camp computer's copy could not be reached or taken; the book is then what was held here before. */
  readonly trouble: string | null;
  /** Why nothing said here is signed; null where all of it is. */
  readonly unsigned: string | null;
  /** Small notes beside this copy of the journal. */
  readonly notes: Pick<Store, 'note' | 'setNote'>;
  /** Bring what is here and what is on the camp computer together. @throws when it is not durable there */
  sync(): Promise<void>;
  /** Keep these here and on the camp computer. @throws when either is not durable */
  write(drafts: readonly Draft[]): Promise<readonly Entry[]>;
}

/** The command line at work on a data folder. */
export interface Desk {
  readonly camp: Camp;
  /** Ids of all campaigns, here or on the camp computer. */
  campaigns(): Promise<readonly string[]>;
  open(campaign: string): Promise<OpenBook>;
  close(): Promise<void>;
}

const peer = 'camp';

/**
 * The command line is a device like a tablet: its copy of each campaign, with its own device id and chain, lies in
 * DATA/command-line. A lock on that folder keeps two command lines from writing one chain.
 *
 * @throws StoreTrouble 'locked' when another command line is at work, or the data folder is held by something else
 */
export const openDesk = async (folder: string): Promise<Desk> => {
  const camp = await reachCamp(folder);
  const own = join(folder, 'command-line');
  const closing: (() => Promise<void> | void)[] = [() => camp.close()];
  let key: DeviceKey;
  const close = async () => {
    for (const one of closing.toReversed()) await one();
    closing.length = 0;
  };
  try {
    const lock = lockFolder(own, 'another command line');
    closing.push(() => lock.release());
    key = deviceKeyIn(own);
  } catch (error) {
    await close();
    throw error;
  }
  return {
    camp,
    campaigns: async () => [...new Set([...(await camp.campaigns()), ...listCampaigns(own)])].sort(),
    close,
    open: async (campaign) => {
      const store = openSqliteStore(campaignPaths(own, campaign).journal, campaign);
      closing.push(() => store.close());
      const replica = await openReplica(store, {
        ...source,
        opened: store.handOver(),
        verify: verifyEd25519,
        ...(key.signer === null ? {} : { signer: key.signer }),
      });
      const book = createBook();
      book.add(replica.ledger.entries());
      replica.subscribe((added) => void book.add(added));
      const trouble = await sync(replica, camp).then(
        () => null,
        (error: unknown) => {
          const complaint = complaintOf(error);
          if (complaint === null) throw error;
          return complaint;
        },
      );
      return {
        campaign,
        replica,
        book,
        trouble,
        unsigned: key.trouble,
        notes: store,
        sync: () => sync(replica, camp),
        write: async (drafts) => {
          const entries = await replica.write(drafts);
          await sync(replica, camp);
          const missing = entries.filter((entry) => !replica.safety(peer).holds(entry));
          if (missing.length > 0)
            throw new CommandError(
              `${missing.length} of ${entries.length} entries are kept here and not yet on the camp computer`,
              `campaign ${campaign}`,
              'They go there by themselves with the next command; run firnbook state.',
            );
          return entries;
        },
      };
    },
  };
};

interface DeviceKey {
  readonly signer: Signer | null;
  readonly trouble: string | null;
}

/** A key that can't be used keeps nobody from writing: the entries are unsigned then. */
const deviceKeyIn = (folder: string): DeviceKey => {
  try {
    return { signer: openDeviceKey(folder), trouble: null };
  } catch (error) {
    if (!isTrouble(error)) throw error;
    return { signer: null, trouble: error.message };
  }
};

const sync = async (replica: Replica, camp: Camp): Promise<void> => {
  const holdsAny = replica.ledger.size > 0 || (await camp.campaigns()).includes(replica.campaign);
  if (!holdsAny) return;
  for (let again = true; again; ) {
    const heard = await replica.hear(peer, await camp.exchange(replica.ask(peer)));
    const refused = heard.refusedThere[0] ?? heard.refused[0];
    if (refused !== undefined)
      throw new CommandError(
        `an entry was refused: ${refused.problem}`,
        `entry ${refused.hash.slice(0, 12)}`,
        'Run firnbook verify and look at what it says of this entry.',
      );
    again = heard.again;
  }
};

/** Who decides, now: ISO 8601 with this computer's offset, as a person would say it. */
export const contextOf = (by: string, now = new Date()): Context => {
  const offset = -now.getTimezoneOffset();
  const two = (value: number) => String(Math.floor(Math.abs(value))).padStart(2, '0');
  const local = new Date(now.getTime() + offset * 60_000).toISOString().slice(0, 19);
  return {
    by,
    observedAt: `${local}${offset < 0 ? '-' : '+'}${two(offset / 60)}:${two(offset % 60)}`,
    newId: () => newId(source),
  };
};
