import { hash, randomBytes } from 'node:crypto';
import { statSync } from 'node:fs';
import { setImmediate } from 'node:timers/promises';
import { openReplica, type Replica, type Reply, type Request } from '@firnbook/journal';
import {
  type Attachments,
  backupRecord,
  campaignPaths,
  type FolderLock,
  isCampaignId,
  isTrouble,
  layBallast,
  listCampaigns,
  openAttachments,
  openSqliteStoreInTurns,
  type Restored,
  releaseBallast,
  restore,
  type SqliteStore,
  trouble,
  verifyEd25519,
} from '@firnbook/storage/sqlite';
import type { Complaint } from './answers.ts';
import { followTitle, type Title } from './title.ts';

/** A campaign whose journal this server holds. */
export interface OpenCampaign {
  readonly id: string;
  readonly store: SqliteStore;
  readonly replica: Replica;
  readonly attachments: Attachments;
  readonly title: () => Title;
}

/** A campaign that lies in the folder and can't be opened; the others go on. */
interface ClosedCampaign {
  readonly id: string;
  readonly trouble: Complaint;
}

export interface Campaigns {
  readonly open: ReadonlyMap<string, OpenCampaign>;
  readonly closed: ReadonlyMap<string, ClosedCampaign>;
  /** The campaign of a request, made when a device brings one that isn't here; null when it may not be made. */
  welcome(request: Request): Promise<OpenCampaign | null>;
  /** The replica's answer, once what came is on the disk. */
  answer(campaign: OpenCampaign, request: Request): Promise<Reply>;
  /**
   * Brings a campaign back from one generation of a backup and opens it. One that lies here and can't be opened is
   * set aside; one that is open is refused.
   *
   * @throws StoreTrouble as `restore`
   */
  recover(generation: string): Promise<Restored>;
  /**
   * Resolves when a campaign that lay in the folder has been checked and is open or closed, and at once for any other.
   * Without a name: when all are. Nothing is known of a campaign before, and nothing is written into it.
   *
   * @throws what no check should meet; the server ends with it
   */
  checked(id?: string): Promise<void>;
  /** Also while campaigns are being checked: those are left as they are. */
  close(): Promise<void>;
}

/** More than any camp has; a program that goes wild stops here. */
const most = 200;

/**
 * Begins to open every campaign of a data folder, one after the other, the smallest first: a season is read for seconds,
 * and meanwhile the screens' files and the campaigns that are ready are served. The folder's lock is the caller's.
 */
export function openCampaigns(lock: FolderLock, log: (line: string) => void): Campaigns {
  const dataFolder = lock.folder;
  const open = new Map<string, OpenCampaign>();
  const closed = new Map<string, ClosedCampaign>();
  const making = new Map<string, Promise<OpenCampaign>>();
  const checking = new Map<string, Promise<void>>();
  let isClosing = false;

  async function turn(): Promise<void> {
    await setImmediate();
    if (isClosing) throw new Stopped();
  }

  async function bring(id: string): Promise<OpenCampaign> {
    const paths = campaignPaths(dataFolder, id);
    const store = await openSqliteStoreInTurns(paths.journal, id, turn);
    const replica = await openReplica(store, {
      now: Date.now,
      randomBytes: (length) => randomBytes(length),
      // Where the start-up check found damage it hands nothing over, and each row is looked at again, so that the
      // bad ones are known by name.
      opened: store.handOver(),
      verify: verifyEd25519,
      hash: (text) => hash('sha256', text),
    });
    const campaign = {
      id,
      store,
      replica,
      attachments: openAttachments(paths.attachments),
      title: followTitle(replica),
    };
    for (const finding of store.damage)
      log(`Campaign ${id}: ${finding.what} (${finding.where}). ${finding.mend}`);
    open.set(id, campaign);
    return campaign;
  }

  /** Work that needs a little room on the disk: the ballast gives it when there is none. */
  async function withRoom<T>(work: () => Promise<T>): Promise<T> {
    try {
      return await work();
    } catch (error) {
      if (!(isTrouble(error) && error.trouble === 'disk full' && releaseBallast(dataFolder))) throw error;
      log('The disk is full. The reserve was given back for entries: free some space now.');
      return await work();
    }
  }

  async function bringBack(id: string): Promise<void> {
    try {
      if (!isClosing) await withRoom(() => bring(id));
    } catch (error) {
      if (error instanceof Stopped) return;
      if (!isTrouble(error)) throw error;
      log(`Campaign ${id}: ${error.message}`);
      closed.set(id, { id, trouble: { what: error.what, where: `campaign ${id}`, mend: error.mend } });
    } finally {
      checking.delete(id);
    }
  }

  layBallast(dataFolder);
  const sizeOf = (id: string): number => statSync(campaignPaths(dataFolder, id).journal).size;
  const found = [...listCampaigns(dataFolder)].sort((a, b) => sizeOf(a) - sizeOf(b));
  let all = Promise.resolve();
  for (const id of found) {
    all = all.then(() => bringBack(id));
    checking.set(id, all);
  }
  // Whoever waits is told; that nobody does must not end the process.
  all.catch(() => undefined);

  return {
    open,
    closed,
    answer: (campaign, request) => withRoom(() => campaign.replica.answer(request)),
    welcome: async (request) => {
      const id = request.campaign;
      const there = open.get(id) ?? making.get(id);
      if (there !== undefined) return there;
      // A device that asks about a campaign without holding anything of it doesn't bring one.
      const brings =
        request.since !== undefined || Object.values(request.have).some((heads) => heads.length > 0);
      if (!isCampaignId(id) || !brings || open.size + closed.size + making.size + checking.size >= most)
        return null;
      const made = withRoom(() => bring(id)).finally(() => making.delete(id));
      making.set(id, made);
      return made;
    },
    recover: async (generation) => {
      const { campaign } = backupRecord(generation);
      if (open.has(campaign))
        throw trouble(
          'refused',
          'This campaign is open here already',
          `campaign ${campaign}`,
          'There is nothing to bring back: let the tablets sync. To look at an old state, use another data folder.',
        );
      const restored = await withRoom(() => restore(lock, generation, closed.has(campaign)));
      closed.delete(campaign);
      await withRoom(() => bring(campaign));
      log(`Campaign ${campaign}: ${restored.entries} entries brought back from a backup.`);
      return restored;
    },
    checked: (id) => (id === undefined ? all : (checking.get(id) ?? Promise.resolve())),
    close: async () => {
      isClosing = true;
      await all.catch(() => undefined);
      for (const { store } of open.values()) await store.close();
    },
  };
}

/** The server closes while campaigns are being checked. */
class Stopped extends Error {}
