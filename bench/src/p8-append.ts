/**
 * P8: append, flush and answer. 50 clients bring entries to a server in a process of its own, each waiting for its
 * answer before the next, without and with the others' entries in the answer; the store alone, one caller and 50;
 * and the peer, a bare better-sqlite3 loop with the same durability and the same rows, one commit each. Every round
 * does all, the order turning; medians of the rounds.
 */
import { spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { Agent, request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { newId, type Reply, type Request, type Sealed, seal } from '@firnbook/journal';
import { startServer } from '@firnbook/server';
import { openSqliteStore } from '@firnbook/storage/sqlite';
import Database from 'better-sqlite3';

const rounds = 5;
const clients = 50;
const perClient = 40;
const warmUp = 20;
const alone = 1500;

const source = { now: Date.now, randomBytes: (length: number) => randomBytes(length) };

if (process.argv[2] === 'serve') {
  const dataFolder = process.argv[3] ?? '';
  const server = await startServer({
    dataFolder,
    webFolder: dataFolder,
    port: 0,
    log: (line) => process.stderr.write(`${line}\n`),
  });
  process.stdout.write(`${server.address}\n`);
} else await measure();

function chain(campaign: string, device: string, count: number): readonly Sealed[] {
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

/** Entries per second of the bare loop: the same columns but the trail, one commit per row. */
function raw(folder: string): number {
  const rows = chain('raw', 'd', alone);
  const db = new Database(join(folder, 'raw.sqlite'));
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  db.exec(
    'CREATE TABLE entries (position INTEGER PRIMARY KEY, hash TEXT NOT NULL UNIQUE, head TEXT NOT NULL, body TEXT, signature TEXT) STRICT',
  );
  const insert = db.prepare('INSERT INTO entries VALUES (NULL, ?, ?, ?, ?)');
  if (db.pragma('synchronous', { simple: true }) !== 2) throw new Error('the peer is not durable');
  const start = performance.now();
  for (const { hash, head, body, signature } of rows) insert.run(hash, head, body, signature);
  const rate = (rows.length / (performance.now() - start)) * 1000;
  db.close();
  return rate;
}

/** Entries per second of the store, by so many callers that each wait for their own entry. */
async function store(folder: string, callers: number): Promise<number> {
  const opened = openSqliteStore(join(folder, 'store.sqlite'), 'store');
  const each = Math.ceil(alone / callers);
  const chains = Array.from({ length: callers }, (_, caller) => chain('store', `d${caller}`, each));
  const start = performance.now();
  await Promise.all(
    chains.map(async (entries) => {
      for (const entry of entries) await opened.append([entry]);
    }),
  );
  const rate = ((each * callers) / (performance.now() - start)) * 1000;
  await opened.close();
  return rate;
}

/** Acknowledged entries per second, and each answer's time in ms, with 50 clients that are in step with the server. */
async function served(
  folder: string,
  delivery: boolean,
): Promise<{ rate: number; times: readonly number[] }> {
  const args = ['--import', 'tsx', '--conditions=source', fileURLToPath(import.meta.url), 'serve', folder];
  const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] });
  const address = String((await once(child.stdout, 'data'))[0]).trim();
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
  child.kill('SIGKILL');
  await once(child, 'close');
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

async function measure(): Promise<void> {
  const figures = {
    raw: [] as number[],
    one: [] as number[],
    fifty: [] as number[],
    served: [] as number[],
    delivered: [] as number[],
  };
  const p99: number[] = [];
  const p99Delivered: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    const work = [
      async (folder: string) => figures.raw.push(raw(folder)),
      async (folder: string) => figures.one.push(await store(folder, 1)),
      async (folder: string) => figures.fifty.push(await store(folder, clients)),
      async (folder: string) => {
        const { rate, times } = await served(folder, false);
        figures.served.push(rate);
        p99.push(percentile99(times));
      },
      async (folder: string) => {
        const { rate, times } = await served(folder, true);
        figures.delivered.push(rate);
        p99Delivered.push(percentile99(times));
      },
    ];
    for (let turn = 0; turn < work.length; turn += 1) {
      const folder = mkdtempSync(join(tmpdir(), 'firnbook-p8-'));
      await work[(turn + round) % work.length]?.(folder);
      rmSync(folder, { recursive: true, force: true });
    }
  }
  const peer = median(figures.raw);
  const line = {
    id: 'P8',
    what: 'append + fsync + answer, 50 clients',
    unit: 'entries/s',
    figure: Math.round(median(figures.served)),
    peer: Math.round(peer),
    peerIs: 'bare better-sqlite3 loop, WAL, synchronous=FULL, one commit per row',
    ratio: round2(median(figures.served) / peer),
    p99ms: round2(median(p99)),
    withDelivery: Math.round(median(figures.delivered)),
    withDeliveryRatio: round2(median(figures.delivered) / peer),
    withDeliveryP99ms: round2(median(p99Delivered)),
    withDeliveryIs: 'each answer also brings what the 49 others wrote meanwhile',
    storeOneCaller: Math.round(median(figures.one)),
    storeOneCallerRatio: round2(median(figures.one) / peer),
    storeFiftyCallers: Math.round(median(figures.fifty)),
    storeFiftyCallersRatio: round2(median(figures.fifty) / peer),
    rounds,
    target: 'ratio >= 0.70, p99 <= 250 ms',
  };
  process.stdout.write(`${JSON.stringify(line)}\n`);
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
}

function percentile99(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length * 0.99)] ?? Number.NaN;
}

function round2(value: number): number {
  return Math.round(value * 100) / 100;
}
