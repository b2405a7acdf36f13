import { join } from 'node:path';
import { herronLangway } from '@firnbook/science/firn';
import { describe, expect, it } from 'vitest';
import { firnbook, inFolder, put } from '../try.suite.ts';

const site = ['--accumulation', '0.5', '--temperature', '-20', '--surface-density', '360'];

describe('firnbook firn', () => {
  it('prints density, age and w.e. of Herron & Langway 1980 (case integrated as a differential equation)', async () => {
    const { code, out } = await firnbook('firn', ...site, '--depth', '80', '--step', '20', '--csv');
    expect(code).toBe(0);
    const rows = out
      .trimEnd()
      .split('\n')
      .map((line) => line.split(',').slice(0, 4).join());
    expect(rows).toEqual([
      'depth_m,density_kg_m3,age_a,we_m',
      '0.00,360.0,0.00,0.000',
      '20.00,608.4,20.59,10.293',
      '40.00,713.0,47.10,23.552',
      '60.00,789.6,77.25,38.625',
      '80.00,840.5,109.93,54.964',
    ]);
  });

  it('gives depth and age of 550 kg/m3, lock-in and close-off, by the variant asked for', async () => {
    const { out } = await firnbook('firn', ...site);
    expect(out).toContain('End of settling (550.0 kg/m3): 10.41 m, 9.5 a.');
    expect(out).toMatch(/Close-off, Martinerie 1994 \(817\.4 kg\/m3\): 69\.8\d m/);
    expect((await firnbook('firn', ...site, '--close-off', '830')).out).toContain(
      'Close-off, 830 (830.0 kg/m3): 75.07 m, 101.7 a.',
    );
  });

  it('says where the model was never calibrated, and where the site melts', async () => {
    const { out } = await firnbook('firn', '--accumulation', '0,9', '--temperature', '-8', '--swing', '10');
    expect(out).toContain('The site is warmer than those');
    expect(out).toContain('The site is wetter than those');
    expect(out).toContain('Positive degree days with a swing of 10 K: 297.2 K d a year');
    expect(out).toContain('The model is not made for firn that melts.');
  });

  it('compares with measured densities and is fitted to them', () =>
    inFolder(async (folder) => {
      const truth = herronLangway({
        temperature: 253.15,
        accumulation: 0.5,
        surfaceDensity: 390,
        k1Factor: 0.9,
      });
      const rows = Array.from(
        { length: 80 },
        (_, i) => `${i},${i + 1},${truth.density(i + 0.5).toFixed(2)},5,2`,
      );
      put(folder, {
        'd.csv': `top_m,bottom_m,density_kg_m3,random_sd_kg_m3,shared_sd_kg_m3\n${rows.join('\n')}\n`,
      });
      const measured = ['--measured', join(folder, 'd.csv')];
      const plain = await firnbook('firn', ...site, ...measured);
      expect(plain.out).toMatch(/Against 80 measured densities: rms 1\d\.\d kg\/m3/);
      const { out } = await firnbook('firn', ...site, ...measured, '--fit', 'k1,surfaceDensity');
      expect(out).toMatch(/rms 1\d\.\d kg\/m3 before, 0\.\d after/);
      expect(out).toMatch(/ {2}k1: 0\.90\d\d times the published, random sd 0\.0\d+, shared sd 0\.0\d+/);
      expect(out).toMatch(/ {2}surfaceDensity: (389|390)\.\d kg\/m3/);
    }));

  it.each([
    [['--temperature', '-20'], /needs accumulation and temperature/],
    [
      ['--accumulation', '400', '--temperature', '-20'],
      /accumulation is 400 m w\.e\.\/a; allowed: 0\.001 to 10 m w\.e\.\/a/,
    ],
    [[...site, '--step', '0'], /--step: "0" is not above 0/],
    [[...site, '--fit', 'k1'], /there is nothing to fit to\. Give --measured FILE/],
    [[...site, '--close-off', 'x'], /Allowed choices are Martinerie 1994, Martinerie 1992, 830/],
    [[...site, '--measured', 'none.csv'], /none\.csv: there is no such file/],
  ])('ends with 2 on %j and says what to give', async (words, complaint) => {
    const { code, out, err } = await firnbook('firn', ...words);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(complaint);
  });

  it('refuses a parameter that the model has not, and k1 together with accumulation', () =>
    inFolder(async (folder) => {
      put(folder, { 'd.csv': 'top_m,bottom_m,density_kg_m3\n0,1,400\n1,2,410\n2,3,420\n3,4,430\n' });
      const fit = (names: string) =>
        firnbook('firn', ...site, '--measured', join(folder, 'd.csv'), '--fit', names);
      expect((await fit('k2')).err).toMatch(
        /"k2" is no parameter of the model\. Names: k0, k1, surfaceDensity, accumulation/,
      );
      expect((await fit('k1,accumulation')).err).toMatch(/k1 and accumulation are both to be fitted/);
    }));
});
