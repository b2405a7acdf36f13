import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { digestOf, parse } from '@firnbook/journal';
import { describe, expect, it } from 'vitest';
import { chainOf, suiteCampaign } from '../store.suite.ts';
import { backUp, listBackups } from './backup.ts';
import { testCapacity } from './capacity.ts';
import { campaignPaths } from './folder.ts';
import { inFolder } from './folders.suite.ts';
import { readBack, readPieces } from './read-back.ts';
import { nameStick, readStick } from './stick.ts';
import { openSqliteStore } from './store.ts';
import { thinBackups } from './thin-backups.ts';

const sha256 = (bytes: string | Uint8Array) => createHash('sha256').update(bytes).digest('hex');

describe('a stick for backups', () => {
  it('keeps the name it was given once', () =>
    inFolder((folder) => {
      expect(readStick(folder)).toBeNull();
      expect(nameStick(folder, { id: 'one', name: 'red' })).toEqual({ id: 'one', name: 'red' });
      expect(nameStick(folder, { id: 'two', name: 'red' }).id).toBe('one');
      expect(readStick(folder)).toEqual({ id: 'one', name: 'red' });
      expect(() => nameStick(folder, { id: 'three', name: 'blue' })).toThrow(/called "red" already/);
      expect(() => nameStick(join(folder, 'away'), { id: 'x', name: 'x' })).toThrow(/no such folder/);
    }));

  it('is believed for what comes back from it, and leaves nothing behind', () =>
    inFolder((folder) => {
      const { bytes } = testCapacity(folder, 5 * 1024 * 1024, 7);
      expect(bytes).toBe(5 * 1024 * 1024);
      expect(readdirSync(folder)).toEqual([]);
    }));

  it('that has less room than it says is found out (control: it writes over its beginning after 3 MB)', () =>
    inFolder((folder) => {
      const blocks = new Map<number, Uint8Array>();
      const wrapping: typeof readPieces = (file, see) => {
        let block = 0;
        return readPieces(file, (piece) => {
          const place = block % 3;
          if (!blocks.has(place)) blocks.set(place, Uint8Array.from(piece));
          see(blocks.get(place)!);
          block += 1;
        });
      };
      expect(() => testCapacity(folder, 5 * 1024 * 1024, 7, () => undefined, wrapping)).toThrow(
        /at 3 MB came back otherwise/,
      );
      expect(readdirSync(folder)).toEqual([]);
    }));
});

describe('a test that a person stops', () => {
  it('tells how far it is, ends where it is told to, and leaves nothing behind', () =>
    inFolder((folder) => {
      const seen: string[] = [];
      const stopAt = (place: string) => () =>
        testCapacity(folder, 3 * 1024 * 1024, 7, ({ doing, bytes, of }) => {
          seen.push(`${doing} ${bytes / of}`);
          if (seen.at(-1) === place) throw new Error('stopped by a person');
        });
      stopAt('never')();
      expect(seen).toEqual(
        [1 / 3, 2 / 3, 1]
          .flatMap((part) => [`writing ${part}`])
          .concat([1 / 3, 2 / 3, 1].map((part) => `reading ${part}`)),
      );
      for (const place of [`writing ${2 / 3}`, `reading ${1 / 3}`]) {
        expect(stopAt(place)).toThrow('stopped by a person');
        expect(readdirSync(folder)).toEqual([]);
      }
    }));
});

describe('reading back', () => {
  it('gives the hash of a file of any length, past the cache or not', () =>
    inFolder((folder) => {
      const file = join(folder, 'bytes');
      for (const length of [0, 1, 4096, 1_048_576, 3_000_001]) {
        writeFileSync(file, Buffer.alloc(length, 0x5a));
        expect(readBack(file).sha256).toBe(sha256(Buffer.alloc(length, 0x5a)));
      }
    }));
});

describe('what lies beside a backup', () => {
  it('is readable without the program: each line checks with any SHA-256', () =>
    inFolder(async (folder) => {
      const data = join(folder, 'data');
      const store = openSqliteStore(campaignPaths(data, suiteCampaign).journal, suiteCampaign);
      const chain = chainOf(25);
      await store.append(chain);
      const backup = await backUp(data, suiteCampaign, join(folder, 'stick'));
      await store.close();
      const lines = readFileSync(join(backup.folder, 'entries.jsonl'), 'utf8').trimEnd().split('\n');
      const hashes = lines.map((line) => {
        const [, hash = '', head = '', body = ''] =
          /^{"hash":"([0-9a-f]+)","signature":null,"head":({.*}),"body":({"readings".*})}$/.exec(line) ?? [];
        expect(sha256(head)).toBe(hash);
        expect((parse(head) as { bodyHash: string }).bodyHash).toBe(sha256(body));
        return hash;
      });
      expect(digestOf(hashes)).toBe(backup.digest);
      expect(readFileSync(join(backup.folder, 'READ-ME.txt'), 'utf8')).toContain(
        `Digest    ${backup.digest}`,
      );
      const last = chain.at(-1)!;
      expect(Object.values(backup.heads!).flat()).toEqual([{ sequence: 25, hash: last.hash }]);
    }));
});

describe('thinning', () => {
  it('keeps the newest twelve, and of the days before the last of each', () =>
    inFolder((folder) => {
      const shelf = join(folder, suiteCampaign);
      const days = [
        ...Array(5).fill('2026-06-10'),
        ...Array(4).fill('2026-06-11'),
        ...Array(13).fill('2026-06-12'),
      ];
      for (const [i, day] of days.entries()) {
        const generation = join(shelf, `generation-${String(i + 1).padStart(4, '0')}`);
        mkdirSync(generation, { recursive: true });
        writeFileSync(join(generation, 'backup.json'), JSON.stringify({ madeAt: `${day}T08:00:00.000Z` }));
      }
      thinBackups(folder, suiteCampaign);
      const left = listBackups(folder, suiteCampaign).map((path) => Number(path.slice(-4)));
      expect(left).toEqual([5, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22]);
      expect(thinBackups(folder, suiteCampaign)).toEqual([]);
      expect(existsSync(join(shelf, 'generation-0022'))).toBe(true);
    }));
});
