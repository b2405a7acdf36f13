import { createMemoryDisk, createMemoryStore } from '../memory-store.ts';
import { openReplica, type Replica } from '../replica.ts';
import { readReply, readRequest } from '../wire.ts';
import { seededRandom } from './random.ts';

export const NOON = Date.UTC(2031, 0, 14, 12);

export function source(seed: number, now = () => NOON) {
  return { now, randomBytes: seededRandom(seed).bytes };
}

/** A tablet and a camp computer over memory, for tests. */
export async function pair() {
  const tabletDisk = createMemoryDisk('t1');
  const serverDisk = createMemoryDisk('s1');
  const tablet = await openReplica(createMemoryStore('c', tabletDisk), { ...source(1), device: 'tablet' });
  const server = await openReplica(createMemoryStore('c', serverDisk), { ...source(2), device: 'server' });
  return { tablet, server, tabletDisk, serverDisk };
}

/** Both ways through JSON text, as over the wire, until nothing moves. Returns how often. */
export async function exchange(tablet: Replica, server: Replica): Promise<number> {
  let rounds = 0;
  for (let again = true; again; rounds += 1) {
    const request = readRequest(JSON.parse(JSON.stringify(tablet.ask('camp'))));
    if (!request.ok) throw new Error(request.problem);
    const reply = readReply(JSON.parse(JSON.stringify(await server.answer(request.value))));
    if (!reply.ok) throw new Error(reply.problem);
    again = (await tablet.hear('camp', reply.value)).again;
    if (rounds > 50) throw new Error('no end of it');
  }
  return rounds;
}
