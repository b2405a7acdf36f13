/** Clients that bring one entry at a time to a server, each waiting for its answer before the next. */
import { randomBytes } from 'node:crypto';
import { Agent, request } from 'node:http';
import { newId, type Reply, type Request, type Sealed, seal } from '@firnbook/journal';

const source = { now: Date.now, randomBytes: (length: number) => randomBytes(length) };

export interface Pushes {
  readonly clients: number;
  readonly perClient: number;
  /** Entries that each brings before anything is measured. */
  readonly warmUp: number;
  /** Each answer also brings what the others wrote meanwhile. */
  readonly delivery: boolean;
}

export interface Pushed {
  /** Acknowledged entries per second. */
  readonly rate: number;
  /** Of each answer, ms. */
  readonly times: readonly number[];
}

export function chain(campaign: string, device: string, count: number): readonly Sealed[] {
  const made: Sealed[] = [];
  for (let sequence = 1; sequence <= count; sequence += 1) {
    const draft = {
      id: newId(source),
      kind: 'piece.logged',
      version: 1,
      observedAt: '2031-01-17T09:40:00+01:00',
      by: '01930000-0000-7000-8000-000000000001',
      body: { hole: 'cer-a', run: '01930000-0000-7000-8000-000000000002', readings: { length: '87,5 cm' } },
    };
    const place = {
      campaign,
      device,
      sequence,
      previous: made.at(-1)?.hash ?? null,
      stamp: `${String(Date.now()).padStart(15, '0')}-${String(sequence).padStart(6, '0')}`,
      salt: randomBytes(16).toString('hex'),
    };
    made.push(seal(draft, place).sealed);
  }
  return made;
}

/** Brings entries to a running server, by clients that are in step with it. */
export async function pushSingles(address: string, pushes: Pushes): Promise<Pushed> {
  const { clients, perClient, warmUp, delivery } = pushes;
  const campaign = newId(source);
  const agent = new Agent({ keepAlive: true, maxSockets: clients });
  const path = `${address}/api/campaigns/${campaign}/exchange`;
  const chains = Array.from({ length: clients }, (_, client) =>
    chain(campaign, `tablet-${client}`, warmUp + perClient),
  );
  const hello: Request = {
    protocol: 1,
    campaign,
    from: 'tablet-0',
    turn: 'hello',
    epoch: 'bench',
    basis: null,
    now: Date.now(),
    have: { 'tablet-0': [{ sequence: 1, hash: chains[0]?.[0]?.hash ?? '' }] },
    unsure: {},
    entries: [],
  };
  const { epoch } = JSON.parse(await send(path, agent, JSON.stringify(hello))) as Reply;
  // What the clients say to hold of each other, as text, so that they, who share these cores with the server,
  // don't spend them on parsing. With delivery: what the server said last, so each entry goes out to 49 others.
  // Without: everything to the end, as if they had met elsewhere, so that nothing is to be brought back.
  const ends = chains.map((entries, number) =>
    headText(`tablet-${number}`, entries.length, entries.at(-1)?.hash),
  );
  let have = delivery ? '{}' : `{${ends.join()}}`;

  async function client(
    device: string,
    entries: readonly Sealed[],
    done: number,
    times: number[],
  ): Promise<void> {
    const own = new RegExp(`"${device}":\\[[^\\]]*\\]`);
    for (const [index, entry] of entries.entries()) {
      const head = headText(device, done + index + 1, entry.hash);
      const held = own.test(have)
        ? have.replace(own, head)
        : have.replace('{', have === '{}' ? `{${head}` : `{${head},`);
      const rest = JSON.stringify({ ...hello, from: device, basis: epoch, have: null, entries: [entry] });
      const start = performance.now();
      const reply = await send(path, agent, rest.replace('"have":null', `"have":${held}`));
      times.push(performance.now() - start);
      const there = /"have":(\{.*?\}),"unsure"/.exec(reply)?.[1] ?? '';
      if (!there.includes(entry.hash)) throw new Error(`not acknowledged: ${reply.slice(0, 500)}`);
      if (delivery) have = there;
      else if (!reply.includes('"entries":[]')) throw new Error('something was brought back');
    }
  }

  const all = (from: number, to: number, times: number[]) =>
    Promise.all(
      chains.map((entries, number) => client(`tablet-${number}`, entries.slice(from, to), from, times)),
    );
  await all(0, warmUp, []);
  const times: number[] = [];
  const start = performance.now();
  await all(warmUp, warmUp + perClient, times);
  const rate = (times.length / (performance.now() - start)) * 1000;
  agent.destroy();
  return { rate, times };
}

function headText(device: string, sequence: number, hash = ''): string {
  return `"${device}":[{"hash":"${hash}","sequence":${sequence}}]`;
}

function send(path: string, agent: Agent, body: string): Promise<string> {
  return new Promise((resolve, reject) => {
    const headers = { 'content-type': 'application/json', 'content-length': Buffer.byteLength(body) };
    const sent = request(path, { method: 'POST', agent, headers }, (response) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.once('end', () => {
        const text = Buffer.concat(chunks).toString('utf8');
        if (response.statusCode === 200) resolve(text);
        else reject(new Error(text));
      });
    });
    sent.once('error', reject);
    sent.end(body);
  });
}
