import { hashBytes, type Reply, type Request, readReply } from '@firnbook/journal';

/** One line of the camp computer's list. */
export interface CampCampaign {
  readonly id: string;
  readonly name: string;
  readonly invented: boolean;
  readonly entries: number;
  readonly epoch: string;
}

/** The camp computer as this device reaches it. Every call rejects where it gives no answer or a wrong one. */
export interface Camp {
  campaigns(): Promise<readonly CampCampaign[]>;
  exchange(campaign: string, request: Request): Promise<Reply>;
  /** Resolves when the file is on its disk. */
  putFile(campaign: string, sha256: string, bytes: Uint8Array<ArrayBuffer>): Promise<void>;
  /** Null where it does not have the file. */
  getFile(campaign: string, sha256: string): Promise<Uint8Array<ArrayBuffer> | null>;
}

const patience = 20_000;
/** A picture of a few megabytes over a weak camp network. */
const filePatience = 120_000;

/** @param ask the browser's fetch */
export function reachCamp(ask: typeof fetch): Camp {
  const json = async (path: string, init: RequestInit): Promise<unknown> => {
    const answer = await ask(path, { ...init, cache: 'no-store', signal: AbortSignal.timeout(patience) });
    if (!answer.ok) throw new Error(`The camp computer answered ${answer.status} to ${path}.`);
    return answer.json();
  };
  return {
    async campaigns() {
      const list = await json('/api/campaigns', {});
      // Another program may sit at this address; a list is all that is taken.
      if (!Array.isArray(list)) throw new Error('What answers at this address is not the camp computer.');
      return list as readonly CampCampaign[];
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
    async putFile(campaign, sha256, bytes) {
      const answer = await ask(fileAt(campaign, sha256), {
        method: 'PUT',
        headers: { 'content-type': 'application/octet-stream' },
        body: bytes,
        signal: AbortSignal.timeout(filePatience),
      });
      if (!answer.ok) throw new Error(`The camp computer answered ${answer.status} to a file.`);
    },
    async getFile(campaign, sha256) {
      const answer = await ask(fileAt(campaign, sha256), { signal: AbortSignal.timeout(filePatience) });
      if (answer.status === 404) return null;
      if (!answer.ok) throw new Error(`The camp computer answered ${answer.status} to a file.`);
      const bytes = new Uint8Array(await answer.arrayBuffer());
      return hashBytes(bytes) === sha256 ? bytes : null;
    },
  };
}

const fileAt = (campaign: string, sha256: string): string =>
  `/api/campaigns/${encodeURIComponent(campaign)}/attachments/${sha256}`;
