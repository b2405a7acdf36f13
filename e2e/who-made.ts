import { randomBytes, randomUUID } from 'node:crypto';
import { createBook } from '@firnbook/campaign';
import { createMemoryDisk, createMemoryStore, openReplica, type Replica, readReply } from '@firnbook/journal';

const source = { now: Date.now, randomBytes: (length: number) => randomBytes(length) };

/** Who made each entry, newest last, as the camp computer has it: "KT run.logged". */
export async function whoMade(address: string, campaign: string): Promise<readonly string[]> {
  const replica = await openReplica(createMemoryStore(campaign, createMemoryDisk(randomUUID())), source);
  await exchange(replica, address);
  const book = createBook();
  const entries = replica.ledger.entries();
  book.add(entries);
  const { people } = book.view();
  return [...entries]
    .sort((a, b) => (a.header.stamp < b.header.stamp ? -1 : 1))
    .map(({ header }) => `${people.find(({ id }) => id === header.by)?.name} ${header.kind}`);
}

async function exchange(replica: Replica, address: string): Promise<void> {
  for (let again = true; again; ) {
    const answer = await fetch(`${address}/api/campaigns/${replica.campaign}/exchange`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(replica.ask('camp')),
    });
    const reply = readReply(await answer.json());
    if (!reply.ok) throw new Error(reply.problem);
    ({ again } = await replica.hear('camp', reply.value));
  }
}
