import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { fillWithDemo } from '../fill-with-demo.ts';
import { firnbook, inFolder, put } from '../try.suite.ts';

// invented readings
const runs = 'run,depth_from_m,depth_to_m\n1,0.00,0.98\n2,0.98,1.95\n3,1.94,2.93\n';
const pieces =
  'run,piece,length_m,top_break,loss_m\n1,1,0.952,unsure,\n2,1,0.531,fits,\n2,2,0.408,loss,0.03\n3,1,,fits,\n';

const given = (folder: string) => {
  put(folder, { 'runs.csv': runs, 'pieces.csv': pieces });
  return ['--runs', join(folder, 'runs.csv'), '--pieces', join(folder, 'pieces.csv')];
};

describe('firnbook scales', () => {
  it('writes all scales side by side at the top and bottom of every piece', () =>
    inFolder(async (folder) => {
      const out = join(folder, 'out');
      const words = ['scales', ...given(folder), '--hole', 'CER-B', '--as', 'v1', '--out', out];
      const { code, err } = await firnbook(...words);
      expect(code).toBe(0);
      // the last piece was not measured: the logger gives it the advance of its run
      expect(err).toContain('The scale "logger" takes the length of piece 3-1 from the counter');
      const [header, ...rows] = readFileSync(join(out, 'scales.csv'), 'utf8').trimEnd().split('\n');
      expect(header).toBe('hole,run,piece,end,driller_m,logger_m,solved_v1_m,solved_v1_sd_m,lost_above_m');
      expect(rows).toHaveLength(8);
      const cells = rows.map((row) => row.split(','));
      expect(cells.map((row) => row.slice(0, 4).join(' '))[3]).toBe('CER-B 2 1 bottom');
      expect(cells.map((row) => row[5])).toEqual([
        '0.0000',
        '0.9520',
        '0.9520',
        '1.4830',
        '1.5130',
        '1.9210',
        '1.9210',
        '2.9110',
      ]);
      for (const row of cells) expect(Number(row[7])).toBeGreaterThan(0);
      expect(Number(cells[4]![8])).toBeGreaterThan(0.005);
      expect(cells[5]![8]).toBe('');
    }));

  it('takes one depth from one scale to another, and says what it falls into', () =>
    inFolder(async (folder) => {
      const convert = async (...words: readonly string[]) =>
        (await firnbook('scales', ...given(folder), '--depth', ...words)).out;
      expect(await convert('1.20', '--from', 'logger', '--to', 'solved')).toMatch(
        /^1\.20 m on the scale "logger" is 1\.\d\d m ± .* on "solved now", in piece 2-1\.\n$/,
      );
      expect(await convert('1,50', '--from', 'logger', '--to', 'driller')).toMatch(
        /in lost ice between piece 2-1 and piece 2-2/,
      );
      expect(await convert('9', '--from', 'driller', '--to', 'logger')).toContain('below the core');
    }));

  it('refuses a scale that there is not, and an order without a wish', () =>
    inFolder(async (folder) => {
      const words = given(folder);
      const { code, err } = await firnbook(
        'scales',
        ...words,
        '--depth',
        '1',
        '--from',
        'cable',
        '--to',
        'solved',
      );
      expect(code).toBe(2);
      expect(err).toContain('there is no scale "cable". There are: driller, logger, solved.');
      expect((await firnbook('scales', ...words)).err).toContain('Give --out FOLDER for the table');
    }));

  it('says that a scale does not reach any piece, where the counter was never read', () =>
    inFolder(async (folder) => {
      const words = given(folder);
      put(folder, { 'runs.csv': 'run,depth_from_m,depth_to_m\n1,,\n2,,\n3,,\n' });
      const { code, err } = await firnbook(
        'scales',
        ...words,
        '--depth',
        '1',
        '--from',
        'driller',
        '--to',
        'solved',
      );
      expect(code).toBe(2);
      expect(err).toMatch(/The scales "driller" and "solved now" of hole hole have no piece in common/);
    }));

  it('takes a hole of the book', () =>
    inFolder(async (folder) => {
      const data = join(folder, 'data');
      await fillWithDemo(data);
      const out = join(folder, 'out');
      const done = await firnbook(
        'scales',
        '--campaign',
        'Ceredin Saddle',
        '--hole',
        'B',
        '--data',
        data,
        '--out',
        out,
      );
      expect(done).toMatchObject({ code: 0 });
      expect(readFileSync(join(out, 'scales.csv'), 'utf8').split('\n').length).toBeGreaterThan(50);
    }));
});
