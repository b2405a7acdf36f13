import { type Reply, type Request, readReply } from '@firnbook/journal';

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
}

const patience = 20_000;

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
  };
}
