/**
 * L6: a whole season of 150,000 signed entries verified as `firnbook verify` does: every row read, hashed and opened,
 * every chain, every signature. Beside it: the same without signatures; the platform's Ed25519 alone over the same
 * heads, which is the limit; what a signature costs the one who writes an entry, and the one who takes 500 of them.
 */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createMemoryDisk, createMemoryStore, openReplica, type Sealed } from '@firnbook/journal';
import { openDeviceKey, openSqliteStore, verifyEd25519, verifySigned } from '@firnbook/storage/sqlite';
import { season, seasonCampaign } from './season.ts';

const count = 150_000;
const target = 30_000;
const drafts = 500;
const taken = 500;
const source = {
  now: Date.now,
  randomBytes: (length: number) => crypto.getRandomValues(new Uint8Array(length)),
};

const folder = mkdtempSync(join(tmpdir(), 'firnbook-l6-'));
try {
  const signers = ['a', 'b', 'c'].map((name) => {
    const own = join(folder, name);
    mkdirSync(own);
    return openDeviceKey(own);
  });
  const rows = season(count, signers);
  const file = await journalOf('signed', rows);
  const plain = await journalOf('plain', season(count));
  const [verdict, ms, processorMs] = timed(() => verifySigned(file));
  const [without, , plainMs] = timed(() => verifySigned(plain));
  const [right, , limitMs] = timed(() => rows.every((row, index) => isRight(row, signers[index % 3]!.key)));
  if (!(verdict.ok && without.ok && right) || verdict.signatures.signed !== count)
    throw new Error('the season does not verify');
  const writes = { signed: await written(true), unsigned: await written(false) };
  const takes = { signed: await takenIn(rows), unsigned: await takenIn(season(taken)) };
  const line = {
    id: 'L6',
    what: `${count} signed entries verified: database, hashes, chains, signatures`,
    unit: 'ms',
    ms: Math.round(ms),
    target_ms: target,
    processor_ms: Math.round(processorMs),
    without_signatures_ms: Math.round(plainMs),
    limit: "the platform's Ed25519 alone over the same heads",
    limit_ms: Math.round(limitMs),
    ratio: Math.round((processorMs / limitMs) * 100) / 100,
    write_us: { signed: Math.round(writes.signed), unsigned: Math.round(writes.unsigned) },
    take_us: { signed: Math.round(takes.signed), unsigned: Math.round(takes.unsigned) },
    all_but_ms_are: `processor time; of one entry: sealed, signed and given to a store in memory; checked and taken, ${taken} at once`,
  };
  process.stdout.write(`${JSON.stringify(line)}\n`);
  if (ms > target) process.exitCode = 1;

  async function journalOf(name: string, sealed: readonly Sealed[]): Promise<string> {
    const store = openSqliteStore(join(folder, `${name}.sqlite`), seasonCampaign);
    for (let from = 0; from < sealed.length; from += 5000)
      await store.append(sealed.slice(from, from + 5000));
    await store.close();
    return store.file;
  }

  /** Microseconds for one entry, written one by one as a person taps. */
  async function written(isSigned: boolean): Promise<number> {
    const [signer] = signers;
    const options = isSigned ? { signer: signer!, verify: verifyEd25519 } : {};
    const store = createMemoryStore('c', createMemoryDisk('life'));
    const replica = await openReplica(store, { ...source, ...options });
    const one = (id: number) => ({
      id: `entry-${id}`,
      kind: 'piece.logged',
      version: 1,
      observedAt: '2031-01-17T09:40:00+01:00',
      by: 'ev',
      body: { hole: 'cer-a', readings: { length: `${id},5 cm` } },
    });
    for (let id = 0; id < 200; id += 1) await replica.write([one(id)]);
    const start = processor();
    for (let id = 0; id < drafts; id += 1) await replica.write([one(1000 + id)]);
    return ((processor() - start) / drafts) * 1000;
  }

  /** Microseconds for one of the first entries of a season, brought by somebody else. */
  async function takenIn(sealed: readonly Sealed[]): Promise<number> {
    const store = createMemoryStore(seasonCampaign, createMemoryDisk('life'));
    const replica = await openReplica(store, { ...source, verify: verifyEd25519 });
    const start = processor();
    const { refused } = await replica.take(sealed.slice(0, taken));
    if (refused.length > 0) throw new Error(refused[0]!.problem);
    return ((processor() - start) / taken) * 1000;
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}

function isRight({ head, signature }: Sealed, key: string): boolean {
  return verifyEd25519(key, signature ?? '', head);
}

/** What the work gives, and how long it took: by the clock, and of the processor. ms */
function timed<T>(work: () => T): readonly [T, number, number] {
  const [start, spent] = [performance.now(), processor()];
  const result = work();
  return [result, performance.now() - start, processor() - spent];
}

/** ms of this process so far; unlike the clock it does not count what others on this machine do. */
function processor(): number {
  const { system, user } = process.cpuUsage();
  return (system + user) / 1000;
}
