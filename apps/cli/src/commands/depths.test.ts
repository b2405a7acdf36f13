import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { SOLVER, solveDepths } from '@firnbook/science/depth';
import { describe, expect, it } from 'vitest';
import { firnbook, inFolder, put } from '../try.suite.ts';

// invented readings
const runs = 'run,depth_from_m,depth_to_m\n1,0.00,0.98\n2,0.98,1.95\n03,1.94,2.93\n';
const pieces =
  'run,piece,length_m,top_break,loss_m\n1,1,0.952,unsure,\n2,a,0.531,fits,\n2,b,0.428,loss,0.01\n3,1,0.977,fits,\n';
const soundings = 'after_run,hole_depth_m,sd_m\n3,2.90,0.02\n';

const given = (folder: string) => {
  put(folder, { 'runs.csv': runs, 'pieces.csv': pieces, 'soundings.csv': soundings });
  const at = (name: string) => join(folder, name);
  return [
    '--runs',
    at('runs.csv'),
    '--pieces',
    at('pieces.csv'),
    '--soundings',
    at('soundings.csv'),
    '--out',
    at('out'),
  ];
};

const table = (text: string) =>
  text
    .trimEnd()
    .split('\n')
    .map((line) => line.split(','));

describe('firnbook depths', () => {
  it('writes every piece in the columns that were agreed, with the names as given', () =>
    inFolder(async (folder) => {
      const { code, out, err } = await firnbook('depths', ...given(folder));
      expect(code).toBe(0);
      expect(err).toContain('Solving 3 runs, 4 pieces');
      expect(out).toContain('3 runs, 4 pieces solved');
      const [header, ...rows] = table(readFileSync(join(folder, 'out/depths.csv'), 'utf8'));
      expect(header.join()).toBe(
        'run,piece,top_m,top_sd_m,top_min_m,top_max_m,bottom_m,bottom_sd_m,bottom_min_m,bottom_max_m',
      );
      expect(rows.map((row) => row.slice(0, 2))).toEqual([
        ['1', '1'],
        ['2', 'a'],
        ['2', 'b'],
        ['3', '1'],
      ]);
      for (const row of rows) {
        const [top, topSd, topMin, topMax, bottom, bottomSd, bottomMin, bottomMax] = row.slice(2).map(Number);
        expect(topMin).toBeLessThanOrEqual(top);
        expect(top).toBeLessThanOrEqual(topMax);
        expect(bottomMin).toBeLessThanOrEqual(bottom);
        expect(bottom).toBeLessThanOrEqual(bottomMax);
        expect(top).toBeLessThan(bottom);
        expect(topSd * bottomSd).toBeGreaterThan(0);
      }
      expect(readFileSync(join(folder, 'out/findings.csv'), 'utf8')).toBe(
        'what,which,field,size_m,likely,probability\n',
      );
      expect(readdirSync(join(folder, 'out')).sort()).toEqual(['depths.csv', 'findings.csv']);
    }));

  it('writes the numbers of solveDepths on the same readings', () =>
    inFolder(async (folder) => {
      await firnbook('depths', ...given(folder));
      const solution = solveDepths({
        runs: [
          { id: 'x', from: 0, to: 0.98 },
          { id: 'y', from: 0.98, to: 1.95 },
          { id: 'z', from: 1.94, to: 2.93 },
        ],
        pieces: [
          { id: 'a', run: 'x', length: 0.952, topBreak: 'unsure' },
          { id: 'b', run: 'y', length: 0.531, topBreak: 'fits' },
          { id: 'c', run: 'y', length: 0.428, topBreak: 'loss', loss: 0.01 },
          { id: 'd', run: 'z', length: 0.977, topBreak: 'fits' },
        ],
        soundings: [{ id: 's', afterRun: 'z', depth: 2.9, sd: 0.02 }],
      });
      const [, ...rows] = table(readFileSync(join(folder, 'out/depths.csv'), 'utf8'));
      rows.forEach((row, i) => {
        expect(row[2]).toBe(solution.pieces[i].top.value.toFixed(4));
        expect(row[7]).toBe(solution.pieces[i].bottom.sd.toFixed(4));
      });
    }));

  it('names a reading that does not fit by run and piece and by its input column as called there, with exit code 0', () =>
    inFolder(async (folder) => {
      const count = 12;
      const lines = (each: (i: number) => string) =>
        Array.from({ length: count }, (_, i) => each(i)).join('\n');
      put(folder, {
        'r.csv': `run,depth_from_m,depth_to_m\n${lines((i) => `${i + 1},${(i * 0.9).toFixed(2)},${((i + 1) * 0.9).toFixed(2)}`)}\n`,
        'p.csv': `run;piece;length_cm;top_break\n${lines((i) => `${i + 1};1;${i === 6 ? '189,5' : '89,5'};fits`)}\n`,
      });
      const at = (name: string) => join(folder, name);
      const { code } = await firnbook(
        'depths',
        '--runs',
        at('r.csv'),
        '--pieces',
        at('p.csv'),
        '--out',
        at('out'),
      );
      expect(code).toBe(0);
      const [, ...found] = table(readFileSync(at('out/findings.csv'), 'utf8'));
      expect(found.map((row) => row.slice(0, 3))).toEqual([['piece', '7-1', 'length_cm']]);
      expect(Number(found[0][3])).toBeGreaterThan(0);
    }));

  it('ends with 2 and leaves what was there before when the input cannot be used', () =>
    inFolder(async (folder) => {
      const words = given(folder);
      await firnbook('depths', ...words);
      const before = readFileSync(join(folder, 'out/depths.csv'), 'utf8');
      put(folder, { 'pieces.csv': `${pieces}4,1,0.5,fits,\n` });
      const { code, out, err } = await firnbook('depths', ...words);
      expect(code).toBe(2);
      expect(out).toBe('');
      expect(err).toMatch(
        /pieces\.csv, line 6, column 1 \(run\): run 4 is not in .*runs\.csv\. Add a line for it/,
      );
      expect(readFileSync(join(folder, 'out/depths.csv'), 'utf8')).toBe(before);
    }));

  it('makes no half of the two files where the other cannot be written', () =>
    inFolder(async (folder) => {
      const words = given(folder);
      mkdirSync(join(folder, 'out/findings.csv'), { recursive: true });
      expect((await firnbook('depths', ...words)).code).toBe(2);
      expect(existsSync(join(folder, 'out/depths.csv'))).toBe(false);
      expect(readdirSync(join(folder, 'out'))).toEqual(['findings.csv']);
    }));

  it('shows its assumptions and takes others; refuses what is none', () =>
    inFolder(async (folder) => {
      const words = given(folder);
      expect((await firnbook('depths', ...words)).out).toContain('lengthSdIce 0.004');
      expect((await firnbook('depths', ...words, '--assume', 'lengthSdIce=0.005')).out).toContain(
        'lengthSdIce 0.005',
      );
      const { code, err } = await firnbook('depths', ...words, '--assume', 'lengthSd=0.004');
      expect(code).toBe(2);
      expect(err).toContain('lengthSdIce');
    }));

  it('runs as a program of its own: results on stdout, progress on stderr, exit code', () =>
    inFolder(async (folder) => {
      const main = fileURLToPath(new URL('../main.ts', import.meta.url));
      const run = (...words: readonly string[]) =>
        spawnSync(process.execPath, ['--import', 'tsx', '--conditions=source', main, ...words], {
          encoding: 'utf8',
        });
      const { status, stdout, stderr } = run('depths', ...given(folder));
      expect([status, stdout.split('\n', 1)[0]]).toEqual([0, `3 runs, 4 pieces solved (${SOLVER}).`]);
      expect(stderr).toMatch(/^Reading .*runs\.csv/);
      expect(run('depths', '--rnus', 'x')).toMatchObject({ status: 2, stdout: '' });
    }));
});
