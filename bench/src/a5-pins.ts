/**
 * A5: fifty people give their PINs at the same moment, and others go on asking the camp computer. Limit: 300 ms for 99
 * of 100 of those others. The same others before it, in the same run, stand beside.
 */
import { randomBytes, randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createMemoryDisk, createMemoryStore, newId, openReplica, readReply } from '@firnbook/journal';
import { percentile99, round2 } from './figures.ts';
import { slowServer } from './slow-disk.ts';

const people = 50;
/** Others who ask, each again 10 ms after its answer. */
const others = 4;
const quietMs = 4000;
const limit = 300;

const source = { now: Date.now, randomBytes: (length: number) => randomBytes(length) };
const folder = mkdtempSync(join(tmpdir(), 'firnbook-a5-'));
const server = await slowServer(folder, 0);
try {
  const { campaign, crew } = await openCamp();
  const pins = `${server.address}/api/campaigns/${campaign}/pins`;
  const pinOf = (number: number) => String(271_828 + 137 * number);
  const give = async (path: string, number: number): Promise<number> => {
    const answer = await fetch(`${pins}/${crew[number]}${path}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ pin: pinOf(number) }),
    });
    await answer.text();
    return answer.status;
  };
  const all = (path: string) => Promise.all(crew.map((_, number) => give(path, number)));
  const chosen = await all('');
  if (chosen.some((status) => status !== 201)) throw new Error(`not all were chosen: ${chosen}`);

  const quiet = await whileOthersAsk(() => new Promise((resolve) => setTimeout(resolve, quietMs)));
  let ms = 0;
  const busy = await whileOthersAsk(async () => {
    const start = performance.now();
    const told = await all('/check');
    ms = performance.now() - start;
    if (told.some((status) => status !== 200)) throw new Error(`not all were let in: ${told}`);
  });
  const figure = round2(percentile99(busy));
  const line = {
    id: 'A5',
    what: `${people} people give their PINs at once; ${others} others go on`,
    unit: 'ms, p99 of the others',
    figure,
    limit,
    within: figure <= limit,
    asked: busy.length,
    quiet: round2(percentile99(quiet)),
    ratio: round2(figure / percentile99(quiet)),
    allLetInAfter: Math.round(ms),
  };
  process.stdout.write(`${JSON.stringify(line)}\n`);
} finally {
  await server.stop();
  rmSync(folder, { recursive: true, force: true });
}

async function openCamp(): Promise<{ readonly campaign: string; readonly crew: readonly string[] }> {
  const campaign = newId(source);
  const device = await openReplica(createMemoryStore(campaign, createMemoryDisk(randomUUID())), source);
  const drafts = Array.from({ length: people }, (_, number) => {
    const id = newId(source);
    const observedAt = '2031-01-17T09:30:00+01:00';
    return { id, kind: 'person.logged', version: 1, observedAt, by: id, body: { initials: `P${number}` } };
  });
  await device.write(drafts);
  for (let again = true; again; ) {
    const answer = await fetch(`${server.address}/api/campaigns/${campaign}/exchange`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(device.ask('camp')),
    });
    const reply = readReply(await answer.json());
    if (!reply.ok) throw new Error(reply.problem);
    ({ again } = await device.hear('camp', reply.value));
  }
  return { campaign, crew: drafts.map(({ id }) => id) };
}

/** How long each of the others' answers took, ms. */
async function whileOthersAsk(work: () => Promise<unknown>): Promise<readonly number[]> {
  const times: number[] = [];
  let isOver = false;
  const asking = Array.from({ length: others }, async () => {
    while (!isOver) {
      const start = performance.now();
      const answer = await fetch(`${server.address}/api/campaigns`);
      await answer.text();
      times.push(performance.now() - start);
      await new Promise((resolve) => setTimeout(resolve, 10));
    }
  });
  await work();
  isOver = true;
  await Promise.all(asking);
  return times;
}
