/** Devices of a camp, without their screens: the replica of a tablet, over real HTTP. */
import { randomBytes, randomUUID } from 'node:crypto';
import {
  createMemoryDisk,
  createMemoryStore,
  type Draft,
  newId,
  openReplica,
  type Replica,
  type Reply,
  type Request,
  readReply,
} from '@firnbook/journal';

/** What a device takes from outside. */
export const outside = { now: Date.now, randomBytes: (length: number) => randomBytes(length) };

export const newCampaign = (): string => newId(outside);

/** A device that forgets everything when its replica is let go. */
export const memoryTablet = (campaign: string): Promise<Replica> =>
  openReplica(createMemoryStore(campaign, createMemoryDisk(randomUUID())), outside);

/** A run of an invented core at the invented Ceredin Saddle. */
export const runLogged = (number: number): Draft => ({
  id: newId(outside),
  kind: 'run.logged',
  version: 1,
  observedAt: '2031-01-17T09:40:00+01:00',
  by: 'ev',
  body: { hole: 'cer-a', number: String(number), from: `${number},30 m`, to: `${number + 1},21 m` },
});

/** A server's refusal, in its words. */
export class Refusal extends Error {
  readonly status: number;
  constructor(status: number, words: string) {
    super(words);
    this.status = status;
  }
}

/**
 * One exchange. Rejects with a `Refusal` when the server refuses, with another error when there was no answer.
 *
 * @param patience ms
 */
export async function post(request: Request, address: string, patience = 20_000): Promise<Reply> {
  const giveUp = new AbortController();
  let timer: NodeJS.Timeout | undefined;
  const tooLate = new Promise<never>((_, reject) => {
    // Not by the signal alone: a fetch whose server is killed may settle never, aborted or not.
    timer = setTimeout(() => {
      giveUp.abort();
      reject(new Error('There was no answer in time.'));
    }, patience);
  });
  try {
    return await Promise.race([answerTo(request, address, giveUp.signal), tooLate]);
  } finally {
    clearTimeout(timer);
  }
}

async function answerTo(request: Request, address: string, signal: AbortSignal): Promise<Reply> {
  const response = await fetch(`${address}/api/campaigns/${request.campaign}/exchange`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(request),
    signal,
  });
  const body: unknown = await response.json();
  if (!response.ok) throw new Refusal(response.status, JSON.stringify(body));
  const read = readReply(body);
  if (!read.ok) throw new Error(read.problem);
  return read.value;
}

/** Exchanges until both sides hold the same. */
export async function sync(device: Replica, address: string): Promise<void> {
  for (let round = 0; round < 200; round += 1) {
    const { again } = await device.hear('camp', await post(device.ask('camp'), address));
    if (!again) return;
  }
  throw new Error('200 exchanges did not suffice.');
}

export interface Held {
  readonly entries: number;
  readonly digest: string;
}

/** What the server says that it holds of a campaign. */
export async function heldAt(address: string, campaign: string): Promise<Held> {
  const answer = await fetch(`${address}/api/campaigns/${campaign}/digest`);
  if (!answer.ok) throw new Refusal(answer.status, await answer.text());
  return (await answer.json()) as Held;
}
