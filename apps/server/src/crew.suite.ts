import { randomBytes, randomUUID } from 'node:crypto';
import {
  createMemoryDisk,
  createMemoryStore,
  type Draft,
  newId,
  openReplica,
  type Replica,
  type ReplicaOptions,
  type Reply,
  type Request,
  readReply,
} from '@firnbook/journal';

/** What the tests' devices take from outside. */
const source = { now: Date.now, randomBytes: (length: number) => randomBytes(length) };

/** A device that forgets everything when the test ends: the same replica as a tablet's, on memory. */
export function tablet(
  campaign: string,
  more: Partial<Pick<ReplicaOptions, 'signer' | 'now'>> = {},
): Promise<Replica> {
  return openReplica(createMemoryStore(campaign, createMemoryDisk(randomUUID())), { ...source, ...more });
}

export function newCampaign(): string {
  return newId(source);
}

/** A run of an invented core at the invented Ceredin Saddle. */
export function runLogged(number: number): Draft {
  return {
    id: newId(source),
    kind: 'run.logged',
    version: 1,
    observedAt: '2031-01-17T09:40:00+01:00',
    by: 'ev',
    body: { hole: 'cer-a', number: String(number), from: `${number},30 m`, to: `${number + 1},21 m` },
  };
}

/** One exchange with a server; throws with the server's words when it refuses. */
export async function post(request: Request, address: string): Promise<Reply> {
  const response = await fetch(`${address}/api/campaigns/${request.campaign}/exchange`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(request),
  });
  const body: unknown = await response.json();
  if (!response.ok) throw new Error(JSON.stringify(body));
  const read = readReply(body);
  if (!read.ok) throw new Error(read.problem);
  return read.value;
}

/** Exchanges until both sides hold the same. */
export async function sync(device: Replica, address: string): Promise<void> {
  for (let round = 0; round < 100; round += 1) {
    const { again } = await device.hear('camp', await post(device.ask('camp'), address));
    if (!again) return;
  }
  throw new Error('100 exchanges did not suffice');
}
