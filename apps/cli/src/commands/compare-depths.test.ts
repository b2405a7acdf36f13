import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { fillWithDemo } from '../fill-with-demo.ts';
import { firnbook, inFolder, put } from '../try.suite.ts';

/** Invented: twelve runs of 90 cm that bring 89 cm each. */
const lines = (each: (run: number) => string) => Array.from({ length: 12 }, (_, i) => each(i + 1)).join('\n');
const runs = `run,depth_from_m,depth_to_m\n${lines((r) => `${r},${(0.9 * (r - 1)).toFixed(2)},${(0.9 * r).toFixed(2)}`)}\n`;
const pieces = (lengths: Readonly<Record<number, number>>) =>
  `run,piece,length_m,top_break,loss_m\n${lines((r) => `${r},1,${(lengths[r] ?? 0.89).toFixed(3)},fits,`)}\n`;

const readings = (folder: string, lengths: Readonly<Record<number, number>>) => {
  mkdirSync(folder);
  put(folder, { 'runs.csv': runs, 'pieces.csv': pieces(lengths) });
  return folder;
};

describe('firnbook compare-depths', () => {
  it('says which reading moved which piece, and writes it down', () =>
    inFolder(async (folder) => {
      const a = readings(join(folder, 'monday'), { 5: 0.878 });
      const b = readings(join(folder, 'tuesday'), {});
      const out = join(folder, 'out');
      const done = await firnbook('compare-depths', a, b, '--out', out);
      expect(done.code).toBe(0);
      expect(done.out).toContain('1 change: the length of piece 5-1 was corrected from 87.8 cm to 89 cm.\n');
      expect(done.out).toMatch(
        /piece 5-1 moved \d+ mm down because the length of piece 5-1 was corrected from 87\.8 cm to 89 cm\./,
      );
      const [header, ...rows] = readFileSync(join(out, 'movements.csv'), 'utf8').trimEnd().split('\n');
      expect(header).toBe('run,piece,top_moved_m,bottom_moved_m,because');
      expect(rows).toHaveLength(12);
      expect(rows[4]).toMatch(/^5,1,-?0\.0\d+,0\.0\d+,piece 5-1 moved/);
    }));

  it('compares versions that were kept, with what was assumed then', () =>
    inFolder(async (folder) => {
      const [a, b] = [join(folder, 'v1'), join(folder, 'v2')];
      const from = readings(join(folder, 'given'), {});
      const solve = (out: string, ...more: readonly string[]) =>
        firnbook(
          'depths',
          '--runs',
          join(from, 'runs.csv'),
          '--pieces',
          join(from, 'pieces.csv'),
          '--hole',
          'CER-B',
          '--out',
          out,
          ...more,
        );
      await solve(a, '--as', 'v1');
      await solve(b, '--as', 'v2', '--assume', 'cableScaleSd=0.001');
      const done = await firnbook('compare-depths', a, join(b, 'version.json'));
      expect(done.code).toBe(0);
      expect(done.err).toContain('Comparing CER-B v1 with CER-B v2');
      expect(done.out).toMatch(/1 change: .* was taken as 0\.001 instead of 0\.004\./);
    }));

  it('refuses a version whose readings were edited, holes without common pieces, and one state alone', () =>
    inFolder(async (folder) => {
      const from = readings(join(folder, 'given'), {});
      const out = join(folder, 'v1');
      await firnbook(
        'depths',
        '--runs',
        join(from, 'runs.csv'),
        '--pieces',
        join(from, 'pieces.csv'),
        '--out',
        out,
        '--as',
        'v1',
      );
      const file = join(out, 'version.json');
      writeFileSync(file, readFileSync(file, 'utf8').replace('"length":0.89', '"length":0.98'));
      const edited = await firnbook('compare-depths', out, from);
      expect(edited.code).toBe(2);
      expect(edited.err).toContain('their digest is another one');
      expect((await firnbook('compare-depths', from)).err).toContain('Name two folders');
      writeFileSync(file, '{}');
      expect((await firnbook('compare-depths', out, from)).err).toContain('this is no version of depths');
      const other = readings(join(folder, 'other'), {});
      put(other, {
        'runs.csv': 'run,depth_from_m,depth_to_m\n90,0,0.9\n',
        'pieces.csv': 'run,piece,length_m,top_break,loss_m\n90,1,0.88,fits,\n',
      });
      expect((await firnbook('compare-depths', from, other)).err).toContain('no piece in common');
    }));

  it('compares a version with the hole in the book as it is now', () =>
    inFolder(async (folder) => {
      const data = join(folder, 'data');
      await fillWithDemo(data);
      const book = ['--campaign', 'Ceredin Saddle', '--hole', 'B', '--data', data];
      const out = join(folder, 'v1');
      expect(await firnbook('depths', ...book, '--out', out, '--as', 'v1')).toMatchObject({ code: 0 });
      expect(readFileSync(join(out, 'version.json'), 'utf8')).toContain('"name":"v1"');
      const done = await firnbook('compare-depths', out, ...book);
      expect(done).toMatchObject({ code: 0 });
      expect(done.out).toContain('Nothing was changed.');
      expect(done.out).toMatch(/^0 of \d+ pieces moved/m);
    }));
});
