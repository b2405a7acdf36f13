import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { median, percentile99, round2 } from './figures.ts';
import { type Pushed, pushSingles } from './single-entries.ts';
import { bareCommits, slowedBy, slowServer } from './slow-disk.ts';

interface Singles {
  readonly id: string;
  readonly clients: number;
  readonly perClient: number;
  /** ms added to each flush. */
  readonly flush: number;
}

const rounds = 3;
const limit = 250;
const warmUp = 10;

/** Prints the line of a benchmark of single entries: medians of the rounds, the peer beside them in each round. */
export async function measureSingles({ id, clients, perClient, flush }: Singles): Promise<void> {
  const push = async (delivery: boolean): Promise<Pushed> =>
    inFolder(async (folder) => {
      const server = await slowServer(folder, flush);
      try {
        return await pushSingles(server.address, { clients, perClient, warmUp, delivery });
      } finally {
        await server.stop();
      }
    });
  const delivered: Pushed[] = [];
  const plain: Pushed[] = [];
  const lastOf: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    lastOf.push((await inFolder((folder) => bareCommits(folder, clients, flush))).lastOf);
    delivered.push(await push(true));
    plain.push(await push(false));
  }
  const p99 = (of: readonly Pushed[]) => round2(median(of.map(({ times }) => percentile99(times))));
  const figure = p99(delivered);
  const line = {
    id,
    what: `single entries, ${clients} clients`,
    unit: 'ms, p99 from push to answer',
    figure,
    figureIs: 'each answer also brings what the others wrote meanwhile',
    withoutDelivery: p99(plain),
    perSecond: Math.round(median(delivered.map(({ rate }) => rate))),
    peer: round2(median(lastOf)),
    peerIs: `the last of ${clients} callers, one commit each in a bare better-sqlite3 loop, no web server`,
    disk: slowedBy(flush),
    rounds,
    limit,
    holds: figure <= limit,
  };
  process.stdout.write(`${JSON.stringify(line)}\n`);
}

async function inFolder<T>(work: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-singles-'));
  try {
    return await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
