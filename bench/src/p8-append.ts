/**
 * P8: append, flush and answer. 50 clients bring entries to a server in a process of its own, each waiting for its
 * answer before the next, without and with the others' entries in the answer; the store alone, one caller and 50;
 * and the peer, a bare better-sqlite3 loop with the same durability and the same rows, one commit each. Every round
 * does all, the order turning; medians of the rounds.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openSqliteStore } from '@firnbook/storage/sqlite';
import Database from 'better-sqlite3';
import { median, percentile99, round2 } from './figures.ts';
import { chain, type Pushed, pushSingles } from './single-entries.ts';
import { slowServer } from './slow-disk.ts';

const rounds = 5;
const clients = 50;
const perClient = 40;
const warmUp = 20;
const alone = 1500;

await measure();

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
async function served(folder: string, delivery: boolean): Promise<Pushed> {
  const server = await slowServer(folder, 0);
  try {
    return await pushSingles(server.address, { clients, perClient, warmUp, delivery });
  } finally {
    await server.stop();
  }
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
