/** Clients that bring one entry at a time to a server, each waiting for its answer before the next. */
import { randomBytes } from 'node:crypto';
import { Agent, request } from 'node:http';
import { type Head, newId, type Reply, type Request, type Sealed, seal } from '@firnbook/journal';

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
  // Without delivery each says to hold the others' entries to their end, as if they had met elsewhere, so that nothing
  // is to be brought back. With it: what the server said last, so each entry goes out to 49 others.
  const ends = delivery
    ? []
    : chains.map((entries, number) => [`tablet-${number}`, headsAt(entries, entries.length)] as const);
  const tablets = chains.map(() => newTablet(ends));

  async function client(number: number, from: number, to: number, times: number[]): Promise<void> {
    const device = `tablet-${number}`;
    const tablet = tablets[number]!;
    const entries = chains[number]!;
    for (let at = from; at < to; at += 1) {
      const entry = entries[at]!;
      hold(tablet, device, headsAt(entries, at + 1));
      const start = performance.now();
      const said = say(tablet);
      const rest = { ...hello, from: device, basis: epoch, ...said, entries: [entry] };
      const reply = await send(path, agent, JSON.stringify(rest));
      times.push(performance.now() - start);
      const there = hear(tablet, reply);
      if (!there[device]?.some(({ hash }) => hash === entry.hash))
        throw new Error(`not acknowledged: ${reply.slice(0, 500)}`);
      if (delivery) for (const [other, heads] of Object.entries(there)) hold(tablet, other, heads);
      else if (!reply.includes('"entries":[]')) throw new Error('something was brought back');
    }
  }

  const all = (from: number, to: number, times: number[]) =>
    Promise.all(chains.map((_, number) => client(number, from, to, times)));
  await all(0, warmUp, []);
  const times: number[] = [];
  const start = performance.now();
  await all(warmUp, warmUp + perClient, times);
  const rate = (times.length / (performance.now() - start)) * 1000;
  agent.destroy();
  return { rate, times };
}

/** What a tablet says to hold and knows of the server: as much of a replica as an exchange shows. */
interface Tablet {
  readonly held: Map<string, readonly Head[]>;
  /** Devices whose heads the server has not been told of. */
  readonly untold: Set<string>;
  /** Counts what it said; its marks are its own affair. */
  said: number;
  /** Mark under which the last answer says that the server knows it. */
  knownThere: string | null;
  /** Mark of what the server said last. */
  there: string | null;
}

function newTablet(ends: Iterable<readonly [string, readonly Head[]]>): Tablet {
  const held = new Map(ends);
  return { held, untold: new Set(), said: 0, knownThere: null, there: null };
}

function hold(tablet: Tablet, device: string, heads: readonly Head[]): void {
  tablet.held.set(device, heads);
  tablet.untold.add(device);
}

function say(tablet: Tablet): Pick<Request, 'have' | 'mark' | 'since' | 'knows'> {
  const { held, untold, knownThere, there } = tablet;
  tablet.said += 1;
  const isShort = knownThere !== null && untold.size < held.size;
  const heads = isShort ? [...untold].map((device) => [device, held.get(device)!] as const) : held;
  untold.clear();
  tablet.knownThere = null;
  return {
    have: Object.fromEntries(heads),
    mark: tablet.said.toString(16).padStart(64, '0'),
    ...(isShort ? { since: knownThere } : {}),
    ...(there === null ? {} : { knows: there }),
  };
}

/** Takes in what an answer says of the server, by text: the entries beside it are not what is measured here. */
function hear(tablet: Tablet, reply: string): Request['have'] {
  const word = (name: string): string | null =>
    new RegExp(`"${name}":"([0-9a-f]{64})"`).exec(reply)?.[1] ?? null;
  tablet.knownThere = word('knows');
  tablet.there = word('mark');
  return JSON.parse(/"have":(\{.*?\}),"(?:mark|unsure)"/.exec(reply)?.[1] ?? '{}') as Request['have'];
}

const headsAt = (entries: readonly Sealed[], sequence: number): readonly Head[] => [
  { sequence, hash: entries[sequence - 1]!.hash },
];

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
