/** bare-commits.ts FOLDER CALLERS: the peer of L1 to L3, a bare better-sqlite3 loop, one durable commit per row. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { percentile99 } from './figures.ts';
import { chain } from './single-entries.ts';

const [folder = '', callers = '1'] = process.argv.slice(2);
const each = Number(callers);
const rounds = Math.max(4, Math.ceil(200 / each));
const db = new Database(join(folder, 'bare.sqlite'));
db.pragma('journal_mode = WAL');
db.pragma('synchronous = FULL');
db.exec(
  'CREATE TABLE entries (position INTEGER PRIMARY KEY, hash TEXT NOT NULL UNIQUE, head TEXT, body TEXT) STRICT',
);
const insert = db.prepare('INSERT INTO entries VALUES (NULL, ?, ?, ?)');
if (db.pragma('synchronous', { simple: true }) !== 2) throw new Error('the peer is not durable');
const rows = chain('bare', 'd', each * rounds);
const last: number[] = [];
const start = performance.now();
for (let round = 0; round < rounds; round += 1) {
  const begun = performance.now();
  for (const { hash, head, body } of rows.slice(round * each, (round + 1) * each))
    insert.run(hash, head, body);
  last.push(performance.now() - begun);
}
const commit = (performance.now() - start) / rows.length;
db.close();
process.stdout.write(JSON.stringify({ commit, lastOf: percentile99(last) }));
