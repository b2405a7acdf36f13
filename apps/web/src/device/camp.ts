import { type Have, type Reply, type Request, readHave, readReply } from '@firnbook/journal';
import { startPieceTalk } from '../carry/pieces.ts';

/** One line of the camp computer's list. */
export interface CampCampaign {
  readonly id: string;
  readonly name: string;
  readonly invented: boolean;
  readonly entries: number;
  readonly epoch: string;
}

/** A backup of one campaign that the camp computer made on a stick and read back from it. */
export interface CampBackup {
  /** What is written on the stick. */
  readonly name: string;
  /** ISO 8601, UTC, of the camp computer's clock. */
  readonly madeAt: string;
  readonly heads: Have;
}

export interface CampStick {
  readonly id: string;
  readonly name: string;
  readonly isIn: boolean;
  readonly lastBackup: string | null;
  /** Whether keys, list of devices and PINs of the camp network go to it; absent where the camp computer is older. */
  readonly carriesNetwork?: boolean;
  readonly trouble: { readonly what: string; readonly mend: string } | null;
}

/** A campaign of which a stick holds backups, newest first. */
export interface StickCampaign {
  readonly campaign: string;
  readonly name: string | null;
  readonly isHere: boolean;
  readonly generations: readonly {
    readonly generation: number;
    readonly madeAt: string;
    readonly entries: number;
  }[];
}

/** The camp computer as this device reaches it. Every call rejects where it gives no answer or a wrong one. */
export interface Camp {
  campaigns(): Promise<readonly CampCampaign[]>;
  exchange(campaign: string, request: Request): Promise<Reply>;
  /** Sticks that were named, whether in or not. */
  sticks(): Promise<readonly CampStick[]>;
  /** What is on a stick that is in. */
  onStick(stick: string): Promise<readonly StickCampaign[]>;
  /** Resolves when the campaign is back on the camp computer, every entry checked. */
  recover(stick: string, campaign: string, generation: number): Promise<void>;
  /** The newest verified backup of a campaign on each stick. */
  backups(campaign: string): Promise<readonly CampBackup[]>;
  /** Resolves when the file is on its disk. */
  putFile(campaign: string, sha256: string, bytes: Uint8Array<ArrayBuffer>): Promise<void>;
  /** Null where it does not have the file. */
  getFile(campaign: string, sha256: string): Promise<Uint8Array<ArrayBuffer> | null>;
}

const patience = 20_000;

/** @param ask the browser's fetch */
export function reachCamp(ask: typeof fetch): Camp {
  const pieces = startPieceTalk(ask);
  const json = async (path: string, init: RequestInit): Promise<unknown> => {
    const answer = await ask(path, { ...init, cache: 'no-store', signal: AbortSignal.timeout(patience) });
    if (!answer.ok) throw new Error(await complaintOf(answer, path));
    return answer.json();
  };
  return {
    async campaigns() {
      return listOf<CampCampaign>(await json('/api/campaigns', {}));
    },
    async exchange(campaign, request) {
      const reply = readReply(
        await json(`/api/campaigns/${encodeURIComponent(campaign)}/exchange`, {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify(request),
        }),
      );
      if (!reply.ok) throw new Error(`The camp computer's answer cannot be read: ${reply.problem}.`);
      return reply.value;
    },
    sticks: async () => listOf<CampStick>(await json('/api/sticks', {})),
    onStick: async (stick) =>
      listOf<StickCampaign>(await json(`/api/sticks/${encodeURIComponent(stick)}/generations`, {})),
    async recover(stick, campaign, generation) {
      await json(`/api/sticks/${encodeURIComponent(stick)}/recover`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ campaign, generation }),
      });
    },
    async backups(campaign) {
      return listOf(await json(`/api/campaigns/${encodeURIComponent(campaign)}/backups`, {})).map(readBackup);
    },
    putFile: (campaign, sha256, bytes) => pieces.send(fileAt(campaign, sha256), bytes),
    getFile: (campaign, sha256) => pieces.fetch(fileAt(campaign, sha256), sha256),
  };
}

/** What the camp computer says it can't do, in its own words. */
async function complaintOf(answer: Response, path: string): Promise<string> {
  const said = (await answer.json().catch(() => null)) as { what?: unknown; mend?: unknown } | null;
  if (typeof said?.what !== 'string') return `The camp computer answered ${answer.status} to ${path}.`;
  return `${said.what}.${typeof said.mend === 'string' ? ` ${said.mend}` : ''}`;
}

/** Another program may sit at this address; a list is all that is taken. */
function listOf<T = unknown>(value: unknown): readonly T[] {
  if (!Array.isArray(value)) throw new Error('What answers at this address is not the camp computer.');
  return value as readonly T[];
}

/** @throws Error for what isn't one: then nothing is claimed of it */
function readBackup(value: unknown): CampBackup {
  const { name, madeAt, heads } = (value ?? {}) as Record<string, unknown>;
  if (typeof name !== 'string' || typeof madeAt !== 'string' || Number.isNaN(Date.parse(madeAt)))
    throw new Error('The list of backups can not be read.');
  return { name, madeAt, heads: readHave(heads) };
}

const fileAt = (campaign: string, sha256: string): string =>
  `/api/campaigns/${encodeURIComponent(campaign)}/attachments/${sha256}/pieces`;
