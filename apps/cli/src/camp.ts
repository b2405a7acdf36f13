import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { Readable } from 'node:stream';
import {
  hashBytes,
  openReplica,
  type Replica,
  type Reply,
  type Request,
  readReply,
  type Source,
} from '@firnbook/journal';
import { readServerInfo } from '@firnbook/server';
import {
  campaignPaths,
  type FolderLock,
  listCampaigns,
  lockFolder,
  openAttachments,
  openSqliteStore,
  type SqliteStore,
  verifyEd25519,
} from '@firnbook/storage/sqlite';
import { fetchInTime, jsonOf } from './fetch-in-time.ts';
import { CommandError } from './refusal.ts';

/** The camp computer's copy of the book, as the command line reaches it: through its server, or in its folder. */
export interface Camp {
  /** "http://127.0.0.1:7411"; null where no server runs and the folder itself is open. */
  readonly address: string | null;
  /** Ids of the campaigns there. */
  campaigns(): Promise<readonly string[]>;
  exchange(request: Request): Promise<Reply>;
  /** Keeps a file's bytes beside the campaign's journal, under their SHA-256; resolves when they are on the disk. */
  attach(campaign: string, sha256: string, bytes: Uint8Array): Promise<void>;
  /** A file by its SHA-256; null where the camp computer does not have it, or has other bytes under that name. */
  attachment(campaign: string, sha256: string): Promise<Uint8Array | null>;
  close(): Promise<void>;
}

/** What the outside lends to a replica on this computer. */
export const source: Source = { now: Date.now, randomBytes: (length) => randomBytes(length) };

/**
 * Address of the server that runs on this data folder; null when none answers.
 *
 * @param patience ms
 */
export const runningServer = async (folder: string, patience = 2_000): Promise<string | null> => {
  const info = readServerInfo(folder);
  if (info === null) return null;
  try {
    const health = jsonOf(await fetchInTime(`${info.address}/api/health`, {}, patience));
    return (health as { product?: unknown } | null)?.product === 'firnbook' ? info.address : null;
  } catch {
    return null;
  }
};

/** @throws StoreTrouble 'locked' when another process has the folder and no server of it answers */
export const reachCamp = async (folder: string): Promise<Camp> => {
  const address = await runningServer(folder);
  return address === null ? campInFolder(folder) : campAt(address);
};

export const noAnswer = (address: string): CommandError =>
  new CommandError('the server does not answer', address, 'Look whether it still runs, then try again.');

const whole = (bytes: Uint8Array, sha256: string): Uint8Array | null =>
  hashBytes(bytes) === sha256 ? bytes : null;

/** How long the server may take over one answer, ms. */
const serverPatience = 60_000;

/** @param patience ms for each answer */
export const campAt = (address: string, patience: number = serverPatience): Camp => {
  const reach = (path: string, init: RequestInit = {}) =>
    fetchInTime(address + path, init, patience).catch(() => {
      throw noAnswer(address);
    });
  const ask = async (path: string, init: RequestInit = {}): Promise<unknown> => {
    const answer = await reach(path, init);
    const text = jsonOf(answer);
    if (answer.ok) return text;
    const { what, mend } = (text ?? {}) as { what?: string; mend?: string };
    throw new CommandError(
      what ?? `the server answered ${answer.status}`,
      address + path,
      mend ?? 'Look at the lines that the server prints.',
    );
  };
  return {
    address,
    campaigns: async () => ((await ask('/api/campaigns')) as readonly { id: string }[]).map(({ id }) => id),
    exchange: async (request) => {
      const read = readReply(
        await ask(`/api/campaigns/${encodeURIComponent(request.campaign)}/exchange`, {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify(request),
        }),
      );
      if (read.ok) return read.value;
      throw new CommandError(read.problem, address, 'Bring server and command line to one version.');
    },
    attach: async (campaign, sha256, bytes) => {
      await ask(`/api/campaigns/${encodeURIComponent(campaign)}/attachments/${sha256}`, {
        method: 'PUT',
        headers: { 'content-type': 'application/octet-stream' },
        body: new Uint8Array(bytes),
      });
    },
    attachment: async (campaign, sha256) => {
      const path = `/api/campaigns/${encodeURIComponent(campaign)}/attachments/${sha256}`;
      const answer = await reach(path);
      if (answer.status === 404) return null;
      if (!answer.ok)
        throw new CommandError(
          `the server answered ${answer.status}`,
          address + path,
          'Look at the lines that the server prints.',
        );
      return whole(answer.bytes, sha256);
    },
    close: async () => undefined,
  };
};

const campInFolder = (folder: string): Camp => {
  const lock: FolderLock = lockFolder(folder, 'the command line');
  const open = new Map<string, { store: SqliteStore; replica: Replica }>();
  return {
    address: null,
    campaigns: async () => listCampaigns(folder),
    exchange: async (request) => {
      const id = request.campaign;
      let one = open.get(id);
      if (one === undefined) {
        const store = openSqliteStore(campaignPaths(folder, id).journal, id);
        one = {
          store,
          replica: await openReplica(store, { ...source, opened: store.handOver(), verify: verifyEd25519 }),
        };
        open.set(id, one);
      }
      return one.replica.answer(request);
    },
    attach: async (campaign, sha256, bytes) => {
      const { attachments } = campaignPaths(folder, campaign);
      await openAttachments(attachments).put(sha256, Readable.from([bytes]), bytes.length);
    },
    attachment: async (campaign, sha256) => {
      const { attachments } = campaignPaths(folder, campaign);
      const path = openAttachments(attachments).path(sha256);
      return path === null ? null : whole(readFileSync(path), sha256);
    },
    close: async () => {
      for (const { store } of open.values()) await store.close();
      lock.release();
    },
  };
};
