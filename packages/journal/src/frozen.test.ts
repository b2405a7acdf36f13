import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { digest } from './digest.ts';
import type { Sealed } from './entry.ts';
import { createFold } from './fold.ts';
import { createMemoryDisk, createMemoryStore } from './memory-store.ts';
import { openReplica } from './replica.ts';
import { shuffled } from './simulation/invented.ts';
import { seededRandom } from './simulation/random.ts';

// Journals of earlier releases, invented, never changed: a new release adds a file and keeps these (J5). This one
// holds a device that was cloned, two corrections of one reading, a kind nobody knows and a clock a year behind.
const ROWS = JSON.parse(readFileSync(new URL('../frozen/0.1.0.json', import.meta.url), 'utf8')) as Sealed[];

function sha256(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}

async function opened(rows: readonly Sealed[]) {
  const disk = createMemoryDisk('epoch');
  disk.rows.push(...rows);
  const source = { now: () => 0, randomBytes: seededRandom(1).bytes };
  return openReplica(createMemoryStore('0199b2d4-9c00-7a10-8c5e-000000000001', disk), source);
}

describe('the frozen journal of 0.1.0', () => {
  it('J5: opens whole, with hashes that another SHA-256 confirms', async () => {
    const { ledger, damaged } = await opened(ROWS);
    expect(damaged).toEqual([]);
    expect(digest(ledger)).toBe('6720ed215cb99311bc761f34f9dab61283b4372e405e9f3cf27e9573d1076637');
    for (const { hash, head, body } of ROWS) {
      expect(sha256(head)).toBe(hash);
      expect(sha256(body!)).toBe(JSON.parse(head).bodyHash);
    }
  });

  it('keeps its order, its fork, its links, and the text a person typed', async () => {
    const { ledger } = await opened(shuffled(ROWS, seededRandom(3)));
    expect(ledger.entries().map((entry) => entry.header.kind)).toEqual([
      'campaign.opened',
      'person.logged',
      'hole.logged',
      'run.logged',
      'piece.logged',
      'reading.corrected',
      'aurora.seen',
      'reading.corrected',
      'thing.withdrawn',
    ]);
    expect(ledger.forks()).toEqual([
      { device: '01c077fc-ba00-70e3-96c1-9ce222b0c08e', sequence: 3, hashes: expect.any(Array) },
    ]);
    expect(ledger.waiting()).toEqual([]);
    const [, , , , piece, , , , withdrawn] = ledger.entries();
    const corrections = ledger.entries().filter((entry) => entry.header.corrects?.includes(piece!.header.id));
    expect(corrections.map((entry) => entry.header.reason).sort()).toEqual([
      'measured again: öäü € 😀 "quoted" \\ \u0007',
      'read the tape from the wrong end',
    ]);
    expect(withdrawn!.header.clockOff).toBe(-365 * 86_400_000);
  });

  it('J1: folds to the same readings in any order of arrival', async () => {
    const texts = new Set<string>();
    for (let seed = 0; seed < 20; seed += 1) {
      const { ledger } = await opened(shuffled(ROWS, seededRandom(seed)));
      const fold = createFold<string[]>({
        threadsOf: (entry) => [String(entry.body?.hole ?? 'campaign').slice(0, 8)],
        initial: () => [],
        apply: (lengths, { body }) => {
          const { length } = (body?.readings ?? {}) as { readonly length?: string };
          if (length !== undefined) lengths.push(length);
        },
      });
      fold.add(ledger.entries());
      texts.add(JSON.stringify([...fold.threads()].sort().map((thread) => fold.state(thread))));
    }
    expect([...texts]).toHaveLength(1);
    expect(
      JSON.parse([...texts][0]!)
        .flat()
        .sort(),
    ).toEqual(['87,5 cm', '87,9 cm', '88.1 cm']);
  });
});
