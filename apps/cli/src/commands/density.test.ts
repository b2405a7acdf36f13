import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { herronLangway } from '@firnbook/science/firn';
import { describe, expect, it } from 'vitest';
import { firnbook, inFolder, put } from '../try.suite.ts';

const column = herronLangway({ temperature: 253.15, accumulation: 0.4, surfaceDensity: 360 });

/** An invented core of 30 m: masses of firn by Herron & Langway, rounded to a gram. */
const lines = (change: (i: number) => Partial<{ length: number; gross: number }> = () => ({})) => [
  'run,piece,mass_g,tare_g,length_cm,diameter_mm,diameter_2_mm,top_m,bottom_m',
  ...Array.from({ length: 40 }, (_, i) => {
    const top = i * 0.75;
    const water = column.waterEquivalent(top + 0.74) - column.waterEquivalent(top);
    const { length = 74, gross = Math.round(water * Math.PI * 0.049 ** 2 * 1e6 + 152) } = change(i);
    return `${i + 1},1,${gross},152,${length.toFixed(1)},98.${i % 3},98.1,${top.toFixed(2)},${(top + 0.74).toFixed(2)}`;
  }),
];
const table = (folder: string, name: string) => {
  const [header, ...rows] = readFileSync(join(folder, 'out', name), 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => line.split(','));
  return rows.map((cells) => Object.fromEntries(header.map((head, i) => [head, cells[i]])));
};
const run = (folder: string, text: string, ...words: readonly string[]) => {
  put(folder, { 'pieces.csv': text });
  return firnbook('density', '--pieces', join(folder, 'pieces.csv'), '--out', join(folder, 'out'), ...words);
};

describe('firnbook density', () => {
  it('does what its help says: the worked example runs and writes four tables', () =>
    inFolder(async (folder) => {
      const { out: help } = await firnbook('density', '--help');
      const rows = help.slice(help.indexOf('Example: pieces.csv')).split('\n').slice(1);
      const end = rows.findIndex((row) => !row.startsWith('  '));
      const text = `${rows
        .slice(0, end)
        .map((row) => row.trim())
        .join('\n')}\n`;
      const { code, out } = await run(folder, text, '--profile');
      expect(code).toBe(0);
      expect(out).toContain('3 pieces, 3 with a density.');
      expect(readdirSync(join(folder, 'out')).sort()).toEqual([
        'bins.csv',
        'density.csv',
        'profile.csv',
        'we.csv',
      ]);
    }));

  it('writes density with random and shared errors apart, the profile with its band, and w.e. of the firn it was made from', () =>
    inFolder(async (folder) => {
      const { code, out } = await run(folder, `${lines().join('\n')}\n`, '--profile', '--step', '1');
      expect(code).toBe(0);
      expect(out).toContain('No density is odd.');
      const densities = table(folder, 'density.csv');
      expect(densities).toHaveLength(40);
      for (const row of densities) {
        const middle = (Number(row.top_m) + Number(row.bottom_m)) / 2;
        expect(Math.abs(Number(row.density_kg_m3) - column.density(middle))).toBeLessThan(6);
        expect(Number(row.random_sd_kg_m3) * Number(row.shared_sd_kg_m3)).toBeGreaterThan(0);
        expect(row.flag).toBe('');
      }
      for (const row of table(folder, 'profile.csv')) {
        expect(Number(row.low_95_kg_m3)).toBeLessThan(Number(row.density_kg_m3));
        expect(Number(row.high_95_kg_m3)).toBeGreaterThan(Number(row.density_kg_m3));
      }
      const bottom = table(folder, 'we.csv').at(-1)!;
      expect(Number(bottom.depth_m)).toBeCloseTo(29.99, 6);
      expect(Math.abs(Number(bottom.we_m) / column.waterEquivalent(29.99) - 1)).toBeLessThan(0.005);
    }));

  it('flags a piece and names the reading to look at, on the screen and in the file, with exit code 0', () =>
    inFolder(async (folder) => {
      const text = `${lines((i) => (i === 20 ? { length: 64 } : {})).join('\n')}\n`;
      const { code, out } = await run(folder, text);
      expect(code).toBe(0);
      expect(out).toMatch(
        /piece 21-1: \d+ kg\/m3, off the profile by .*; look at the length: 10 cm \(probability 0\.\d+\)/,
      );
      const row = table(folder, 'density.csv')[20];
      expect([row.flag, row.reading, row.slip, row.instead]).toEqual([
        'off the profile',
        'length',
        '10 cm',
        '740.0 mm',
      ]);
      expect(readdirSync(join(folder, 'out'))).toEqual(['density.csv']);
    }));

  it('takes depths from solved depths, and what a pit says of the snow above', () =>
    inFolder(async (folder) => {
      const solved = lines()
        .slice(1)
        .map(
          (line, i) => `${line.split(',')[0]},1,${(2 + i * 0.76).toFixed(3)},${(2.74 + i * 0.76).toFixed(3)}`,
        );
      put(folder, { 'depths.csv': `run,piece,top_m,bottom_m\n${solved.join('\n')}\n` });
      const { code, out } = await run(
        folder,
        `${lines().join('\n')}\n`,
        '--profile',
        '--depths',
        join(folder, 'depths.csv'),
        '--from-depth',
        '2',
        '--from-we',
        '0,81',
        '--from-sd',
        '0.02',
      );
      expect(code).toBe(0);
      expect(out).toContain('Water equivalent down to 32.38 m');
      expect(table(folder, 'we.csv')[0]).toEqual({
        depth_m: '2.0000',
        we_m: '0.81000',
        random_sd_m: '0.02000',
        shared_sd_m: '0.00000',
        above: 'start',
      });
    }));

  it.each([
    [
      'a length in metres under a header of none',
      (text: string) => text.replace('length_cm', 'length'),
      [],
      /pieces\.csv, line 2, column 5 \(length\): piece 1-1: length is 74 m\. Allowed: 0\.005 to 6 m/,
    ],
    [
      'a mass without a unit',
      (text: string) => text.replace('mass_g', 'mass'),
      [],
      /line 1, column 3 \(mass\): the column "mass" says no unit/,
    ],
    [
      'an unknown assumption',
      (text: string) => text,
      ['--assume', 'diameter=1'],
      /"diameter=1" is no assumption.*sharedDiameterSd/,
    ],
    [
      'a reach that is no number',
      (text: string) => text,
      ['--reach', 'wide'],
      /--reach: "wide" is not a number/,
    ],
    [
      'overlapping pieces',
      (text: string) => text.replace(',0.75,1.49', ',0.60,1.49'),
      ['--profile'],
      /piece 2-1: its top at 0\.6 m lies 0\.140 m above the bottom of piece 1-1/,
    ],
    [
      'a profile without depths',
      (text: string) => text.replace('top_m,bottom_m', 'a,b'),
      ['--profile'],
      /there is no profile\. Add the columns top_m and bottom_m/,
    ],
    [
      'half of what a pit says',
      (text: string) => text,
      ['--profile', '--from-depth', '2'],
      /needs a depth and its water equivalent/,
    ],
  ] as const)('ends with 2 on %s, says where, and writes nothing', (_, change, words, complaint) =>
    inFolder(async (folder) => {
      const { code, out, err } = await run(folder, change(`${lines().join('\n')}\n`), ...words);
      expect([code, out]).toEqual([2, '']);
      expect(err).toMatch(complaint);
      expect(existsSync(join(folder, 'out'))).toBe(false);
    }),
  );

  it('wants its pieces and a place for the results', async () => {
    expect((await firnbook('density')).err).toContain('--pieces');
    expect((await firnbook('density', '--pieces', 'x.csv')).err).toContain('--out');
    expect((await firnbook('density', '--pieces', 'x.csv', '--out', 'o')).err).toContain(
      'there is no such file',
    );
  });
});
