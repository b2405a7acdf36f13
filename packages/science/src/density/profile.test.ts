import { describe, expect, it } from 'vitest';
import { herronLangway } from '../firn/herron-langway.ts';
import { seeded } from '../random/index.ts';
import { densityBins } from './bins.ts';
import type { PlacedDensity } from './placed-density.ts';
import { densityProfile } from './profile.ts';

const column = herronLangway({ temperature: 253.15, accumulation: 0.4, surfaceDensity: 360 });
const mean = (top: number, bottom: number) =>
  (1000 * (column.waterEquivalent(bottom) - column.waterEquivalent(top))) / (bottom - top);
const core = (noise: (i: number) => number, pieces = 120): PlacedDensity[] =>
  Array.from({ length: pieces }, (_, i) => {
    const top = i * 0.9 + 0.01;
    const bottom = top + 0.87;
    return {
      id: `${i}`,
      top,
      bottom,
      density: mean(top, bottom) + noise(i),
      randomSd: 5,
      sharedShare: 0.004,
      cutterSet: i < 60 ? 'a' : 'b',
    };
  });

describe('density profile', () => {
  it('goes through any parabola of depth exactly, whatever the pieces’ lengths, as means over them', () => {
    const curve = (z: number) => 350 + 9 * z - 0.05 * z * z;
    const integral = (z: number) => 350 * z + 4.5 * z * z - (0.05 / 3) * z ** 3;
    const random = seeded(3);
    let top = 0;
    const pieces = Array.from({ length: 60 }, (_, i) => {
      const bottom = top + 0.2 + 1.5 * random.uniform();
      const piece = {
        id: `${i}`,
        top,
        bottom,
        density: (integral(bottom) - integral(top)) / (bottom - top),
        randomSd: 5,
        sharedShare: 0,
        cutterSet: 'a',
      };
      top = bottom;
      return piece;
    });
    const profile = densityProfile(pieces, 6);
    for (let z = 2; z < 50; z += 1.7) expect(profile.at(z).value).toBeCloseTo(curve(z), 6);
  });

  it('has a band that holds the true curve: 91 to 97 % of 3,600 places of 40 simulated cores, at 1.96 sd', () => {
    const random = seeded(5);
    let [inside, all] = [0, 0];
    for (let run = 0; run < 40; run++) {
      const profile = densityProfile(core(() => Math.hypot(5, 8) * random.normal()));
      for (let z = 2; z < 106; z += 1.15) {
        const { value, randomSd } = profile.at(z);
        if (Math.abs(value - column.density(z)) <= 1.96 * randomSd) inside += 1;
        all += 1;
      }
    }
    expect(inside / all).toBeGreaterThan(0.91);
    expect(inside / all).toBeLessThan(0.97);
  }, 120_000);

  it('finds the scatter of the firn beyond the errors of the pieces', () => {
    const random = seeded(6);
    const rough = densityProfile(core(() => Math.hypot(5, 12) * random.normal()));
    expect(rough.scatter).toBeGreaterThan(9);
    expect(rough.scatter).toBeLessThan(15);
    expect(densityProfile(core(() => 5 * random.normal())).scatter).toBeLessThan(5);
  });

  it('is hardly moved by impossible pieces, which it keeps: 3 of 120 high by 300 kg/m3', () => {
    const random = seeded(8);
    const noise = Array.from({ length: 120 }, () => 6 * random.normal());
    const clean = densityProfile(
      core((i) => noise[i]),
      8,
    );
    const wild = densityProfile(
      core((i) => noise[i] + ([20, 21, 70].includes(i) ? 300 : 0)),
      8,
    );
    for (let z = 1; z < 107; z += 1) expect(Math.abs(wild.at(z).value - clean.at(z).value)).toBeLessThan(6);
    expect(wild.pieces).toHaveLength(120);
    expect(wild.residuals[20].weight).toBe(0);
    expect(wild.residuals[20].byOthers!.standardised).toBeGreaterThan(15);
    expect(Math.abs(wild.residuals[40].byOthers!.standardised)).toBeLessThan(4);
  });

  it('is not forced to rise: a crust of 700 kg/m3 over 4 m shows in it', () => {
    const profile = densityProfile(
      core((i) => (i >= 10 && i < 16 ? 200 : 0)),
      3,
    );
    expect(profile.at(11.5).value).toBeGreaterThan(profile.at(20).value);
  });

  it('judges no piece by a curve that it makes itself: of three the ends are not judged', () => {
    const few = densityProfile(core(() => 0).slice(0, 3));
    expect(few.residuals.map(({ byOthers }) => byOthers === null)).toEqual([true, false, true]);
    expect(Math.abs(few.residuals[1].byOthers!.standardised)).toBeLessThan(1);
  });

  it('keeps shared errors apart: within a cutter set they do not average out, between two they do', () => {
    const profile = densityProfile(
      core(() => 0),
      5,
    );
    const inSet = profile.at(20);
    expect(inSet.sharedSd / inSet.value).toBeCloseTo(0.004, 6);
    const between = profile.at(60 * 0.9);
    expect(between.sharedSd / between.value).toBeLessThan(0.0035);
  });

  it('goes on along its tangent beyond the pieces, and is less sure there', () => {
    const profile = densityProfile(core(() => 0).slice(5), 8);
    expect(profile.at(3).value).toBeLessThan(profile.at(5).value);
    expect(profile.at(0).randomSd).toBeGreaterThan(profile.at(4).randomSd);
    expect(profile.at(4).randomSd).toBeGreaterThan(profile.at(20).randomSd);
    const step = profile.at(4.94).value - profile.at(4.95).value;
    expect(Math.abs(step)).toBeLessThan(1);
  });

  it('refuses one piece, and pieces that go up', () => {
    expect(() => densityProfile(core(() => 0).slice(0, 1))).toThrow(
      /1 pieces have a density and a depth; allowed: 2 or more/,
    );
    expect(() => densityProfile(core(() => 0).map((piece) => ({ ...piece, bottom: piece.top })))).toThrow(
      /below its top/,
    );
    expect(densityProfile(core(() => 0).slice(0, 3)).at(1).value).toBeGreaterThan(300);
  });
});

describe('density bins', () => {
  it('weigh by the length within, cover what they say, and keep all mass', () => {
    const pieces = core(() => 0);
    const bins = densityBins(pieces, 1);
    const mass = pieces.reduce((sum, { top, bottom, density }) => sum + (bottom - top) * density, 0);
    const binned = bins.reduce((sum, { covered, density }) => sum + covered * density.value, 0);
    expect(binned / mass).toBeCloseTo(1, 12);
    expect(bins[0]).toMatchObject({ from: 0, to: 1 });
    expect(bins[0].covered).toBeCloseTo(0.96, 9);
  });

  it('leave out stretches without ice; refuse a height of 0', () => {
    const bins = densityBins([...core(() => 0).slice(0, 2), ...core(() => 0).slice(20, 22)], 1);
    expect(bins.map(({ from }) => from)).toEqual([0, 1, 18, 19]);
    expect(() => densityBins([], 0)).toThrow(/height is 0 m/);
  });
});
