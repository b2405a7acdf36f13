import { readdirSync, readFileSync, truncateSync } from 'node:fs';
import { join } from 'node:path';

const block = 32768;
const header = 7;

/**
 * Leaves of the last record in the log under a profile's IndexedDB its header alone, as a kill does that comes between
 * the two writes of which Chromium 156 makes one record (seen with strace). Layout of the log: LevelDB's
 * doc/log_format.md, blocks of 32 KiB, records of checksum (4 bytes), length (2), type (1) and data.
 */
export function tearLog(profile: string): void {
  const folder = join(profile, 'Default/IndexedDB');
  const database = readdirSync(folder).find((name) => name.endsWith('.leveldb'));
  if (database === undefined) throw new Error(`There is no database in ${folder}.`);
  const logs = readdirSync(join(folder, database)).filter((name) => name.endsWith('.log'));
  const log = join(folder, database, logs.sort().at(-1)!);
  truncateSync(log, lastRecord(readFileSync(log)) + header);
}

function lastRecord(bytes: Buffer): number {
  let last = -1;
  for (let at = 0; at + header <= bytes.length; ) {
    const left = block - (at % block);
    if (left < header) {
      at += left;
      continue;
    }
    const next = at + header + bytes.readUInt16LE(at + 4);
    if (next > bytes.length) break;
    last = at;
    at = next;
  }
  if (last === -1) throw new Error('The log holds no record.');
  return last;
}
