/**
 * The process that is traced, killed, starved: writes entries through the real store and says "ack N" when the first N
 * are durable. Arguments: data folder, campaign, device, entries, most in one batch, seed. An append that fails is said
 * too ("fail CODE"), the journal is opened anew and the same entries are offered again.
 */
import { mkdirSync, openSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { type Sealed, seal } from '@firnbook/journal';
import { seeded } from '@firnbook/science/random';
import { campaignPaths, isTrouble, openSqliteStore } from '@firnbook/storage/sqlite';

const [data = '', campaign = '', device = '', count = '0', most = '1', seed = '1'] = process.argv.slice(2);
const random = seeded(Number(seed));
const { journal } = campaignPaths(data, campaign);

mkdirSync(data, { recursive: true });
const acks = openSync(join(data, 'acks'), 'a');
/** Told to whoever started it, and into a file: there the tracer sees it in order with the writes. */
const say = (line: string): void => {
  writeSync(acks, `${line}\n`);
  writeSync(1, `${line}\n`);
};

/** Readings are invented; their lengths differ so that pages fill unevenly. */
const entryAfter = (previous: Sealed | undefined, sequence: number): Sealed =>
  seal(
    {
      id: `${device}-${String(sequence).padStart(6, '0')}`,
      kind: 'run.logged',
      version: 1,
      observedAt: '2031-01-17T09:40:00+01:00',
      by: 'ev',
      body: { hole: 'cer-a', number: String(sequence), note: 'n'.repeat(Math.floor(random.uniform() * 900)) },
    },
    {
      campaign,
      device,
      sequence,
      previous: previous?.hash ?? null,
      stamp: `${String(1_926_000_000_000 + sequence).padStart(15, '0')}-000000`,
      salt: sequence.toString(16).padStart(32, '0'),
    },
  ).sealed;

let store = openSqliteStore(journal, campaign);
let last: Sealed | undefined;
let done = 0;
say('ready');
while (done < Number(count)) {
  const size = Math.min(1 + Math.floor(random.uniform() * Number(most)), Number(count) - done);
  const batch: Sealed[] = [];
  for (let i = 0; i < size; i += 1) {
    last = entryAfter(last, done + i + 1);
    batch.push(last);
  }
  for (let tries = 0; ; tries += 1) {
    try {
      await store.append(batch);
      break;
    } catch (error) {
      if (!isTrouble(error) || tries > 20) throw error;
      say(`fail ${error.trouble}`);
      // what a person does: start again, offer the same
      if (tries % 2 === 1) {
        await store.close().catch(() => undefined);
        store = openSqliteStore(journal, campaign);
      }
    }
  }
  done += size;
  say(`ack ${done}`);
}
await store.close();
