import { randomBytes } from 'node:crypto';
import { expect, it } from 'vitest';
import { haveOf } from './coverage.ts';
import { restingIn } from './holdings.ts';
import { newId } from './ids.ts';
import { createMemoryDisk, createMemoryStore } from './memory-store.ts';
import { openReplica } from './replica.ts';

const source = { now: Date.now, randomBytes: (length: number) => randomBytes(length) };
const draft = () => ({
  id: newId(source),
  kind: 'run',
  version: 1,
  observedAt: '2031-01-17T09:40:00+01:00',
  by: 'ev',
  body: {},
});

it('entries rest in the copies whose heads follow them, in one or another, and no others do', async () => {
  const replica = await openReplica(createMemoryStore('ceredin', createMemoryDisk('life')), source);
  await replica.write([draft(), draft()]);
  const early = haveOf(replica.ledger);
  await replica.write([draft()]);
  const [one, two, three] = replica.ledger.entries();
  const inEarly = restingIn(replica.ledger, [early]);
  expect([one, two, three].map((entry) => inEarly(entry!))).toEqual([true, true, false]);
  const inBoth = restingIn(replica.ledger, [early, haveOf(replica.ledger)]);
  expect(inBoth(three!)).toBe(true);
  expect(restingIn(replica.ledger, [])(one!)).toBe(false);
});
