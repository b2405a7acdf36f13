import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { firnbook, inFolder, put } from '../try.suite.ts';

describe('firnbook closure', () => {
  it('does what its help says: the worked example, word for word', () =>
    inFolder(async (folder) => {
      const { out: help } = await firnbook('closure', '--help');
      const block = (after: string) => {
        const lines = help
          .slice(help.indexOf(after) + after.length)
          .split('\n')
          .slice(1);
        const end = lines.findIndex((line) => !line.startsWith('  '));
        return lines.slice(0, end).map((line) => line.slice(2));
      };
      put(folder, { 'sticks.csv': `${block('Example, the file sticks.csv:').join('\n')}\n` });
      const { code, out } = await firnbook('closure', join(folder, 'sticks.csv'));
      expect(code).toBe(0);
      expect(out.replace(`${folder}/`, '').trimEnd().split('\n')).toEqual(
        block('firnbook closure sticks.csv says:'),
      );
    }));

  it('--csv prints one header line and one line per place on stdout, and nothing else', () =>
    inFolder(async (folder) => {
      put(folder, { 't.csv': 'top_m,bottom_m,length_m\n0.00,0.50,0.50\n0.57,1.00,0.43\n0.98,1.50,0.60\n' });
      const { code, out } = await firnbook('closure', join(folder, 't.csv'), '--csv');
      expect(code).toBe(0);
      expect(out).toBe(
        [
          'what,line,which,from_m,to_m,size_m,tolerance_m,says',
          'gap,3,,0.5,0.57,0.07,0.01,"gap of 7.0 cm from 0.50 m to 0.57 m, after line 2"',
          'overlap,4,,0.98,1,0.02,0.01,"overlap of 2.0 cm from 0.98 m to 1.00 m, with line 3"',
          'length,4,,0.98,1.5,0.08,0.015,"length is 8.0 cm too long, from 0.98 m to 1.50 m"',
          '',
        ].join('\n'),
      );
      put(folder, { 'good.csv': 'top,bottom\n0,1\n1,2\n' });
      expect((await firnbook('closure', join(folder, 'good.csv'), '--csv')).out).toBe(
        'what,line,which,from_m,to_m,size_m,tolerance_m,says\n',
      );
    }));

  it('takes columns and the bag length from options', () =>
    inFolder(async (folder) => {
      put(folder, { 't.csv': 'x;y;z\n1;0,0;0,55\n2;0,55;1,10\n4;1,10;1,65\n' });
      const { out } = await firnbook(
        'closure',
        join(folder, 't.csv'),
        '--top',
        'y',
        '--bottom',
        '3',
        '--bag',
        'x',
        '--bag-length',
        '0,55',
      );
      expect(out).toContain(
        'line 4 (bag 4): bag 4 would be at 2.20 m, the table says 1.65 m: 55.0 cm higher',
      );
    }));

  it('ends with 2 on unusable input: file, line, column, what to do; nothing on stdout', () =>
    inFolder(async (folder) => {
      put(folder, { 't.csv': 'top,bottom\n0.00,0,50x\n' });
      expect(await firnbook('closure', join(folder, 't.csv'))).toMatchObject({ code: 2, out: '' });
      put(folder, { 't.csv': 'top,bottom\n0.00,?5\n' });
      const { code, err } = await firnbook('closure', join(folder, 't.csv'));
      expect(code).toBe(2);
      expect(err).toMatch(/t\.csv, line 2, column 2 \(bottom\): "\?5" is not a number\. Write a number/);
      expect((await firnbook('closure', join(folder, 'none.csv'))).err).toContain('there is no such file');
    }));

  it('refuses an option it does not know, with the one that was meant', async () => {
    const { code, err } = await firnbook('closure', 'x.csv', '--bag-lenght', '0.55');
    expect(code).toBe(2);
    expect(err).toContain('--bag-length');
    expect((await firnbook('clousre', 'x.csv')).err).toContain('closure');
  });
});

const shared = (name: string) => {
  try {
    return readFileSync(new URL(`../../../../../shared/data/${name}`, import.meta.url), 'utf8');
  } catch {
    return null;
  }
};
// Jouzel et al. 2007, doi:10.1126/science.1141038
const epica = shared('edc_bags/EDC_bag_EDC3beta_AICC2012_acc.csv');

describe('firnbook closure on published files', () => {
  it.skipIf(epica === null)('edc_bags: closes; with three gaps put in it prints exactly these', () =>
    inFolder(async (folder) => {
      put(folder, { 'whole.csv': epica! });
      expect((await firnbook('closure', join(folder, 'whole.csv'))).out).toMatch(
        /5819 rows from 0\.00 m to 3199\.90 m \(bags of 0\.55 m, found from the table\): everything closes/,
      );
      const lines = epica!.split('\n');
      put(folder, { 'gaps.csv': lines.filter((_, i) => ![50, 2000, 2001, 5000].includes(i)).join('\n') });
      const { out } = await firnbook('closure', join(folder, 'gaps.csv'), '--csv');
      expect(
        out
          .trimEnd()
          .split('\n')
          .slice(1)
          .map((line) => line.split(',').slice(0, 6)),
      ).toEqual([
        ['gap', '51', '51', '26.95', '27.5', '0.55'],
        ['gap', '2000', '2002', '1099.45', '1100.55', '1.1'],
        ['gap', '4998', '5001', '2749.45', '2750', '0.55'],
      ]);
    }),
  );
});
