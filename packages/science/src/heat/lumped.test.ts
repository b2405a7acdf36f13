import { describe, expect, it } from 'vitest';
import { diffusivity } from './diffusivity.ts';
import { lumped, lumpedTimeTo, wallConductance } from './lumped.ts';

const box = { mass: 60, heatCapacity: 1950, conductance: wallConductance(1.6, 0.05, 0.034) };

describe('a lumped box', () => {
  it('of 60 kg behind 1.6 m2 of 50 mm with 0.034 W/m/K: 1.088 W/K, 29.87132 h, 7.50709 h to -15 (recomputed)', () => {
    expect(box.conductance).toBeCloseTo(1.088, 12);
    expect(Math.abs(lumped(box).timeConstant / 3600 - 29.87132)).toBeLessThan(1e-5);
    const time = lumpedTimeTo(box, { start: 248.15, outside: 293.15, limit: 258.15 });
    expect(Math.abs(Number(time) / 3600 - 7.50709)).toBeLessThan(1e-5);
  });

  it('leaves the share of the difference that its limit says', () => {
    const time = lumpedTimeTo(box, { start: 248.15, outside: 293.15, limit: 258.15 });
    expect(lumped(box).left(Number(time))).toBeCloseTo(35 / 45, 12);
  });

  it('is past a limit at once where it starts beyond it, and never where the air is not beyond it', () => {
    expect(lumpedTimeTo(box, { start: 260, outside: 270, limit: 259 })).toBe(0);
    expect(lumpedTimeTo(box, { start: 250, outside: 257, limit: 258 })).toBeNull();
    expect(lumpedTimeTo(box, { start: 250, outside: 258, limit: 258 })).toBeNull();
    expect(lumpedTimeTo(box, { start: 250, outside: 240, limit: 258 })).toBeNull();
  });

  it('lets less heat in with an air film, which adds 1/h to d/k', () => {
    expect(wallConductance(1.6, 0.05, 0.034, 8)).toBeCloseTo(1.6 / (0.05 / 0.034 + 0.125), 12);
  });

  it('a bare core of 100 mm, h 8: -22.9638 degrees C after 10 and -15.5012 after 60 minutes (recomputed)', () => {
    // a metre of core: 917 kg/m3, 1950 J/kg/K
    const core = {
      mass: 917 * Math.PI * 0.05 ** 2,
      heatCapacity: 1950,
      conductance: 8 * 2 * Math.PI * 0.05,
    };
    expect(Math.abs(-5 - 20 * lumped(core).left(600) - -22.9638)).toBeLessThan(1e-4);
    expect(Math.abs(-5 - 20 * lumped(core).left(3600) - -15.5012)).toBeLessThan(1e-4);
  });

  it('refuses Celsius where kelvin are meant, and walls of no thickness', () => {
    expect(() => lumpedTimeTo(box, { start: -25, outside: 293.15, limit: 258.15 })).toThrow(
      /\(start\) is -25 K/,
    );
    expect(() => wallConductance(1.6, 0, 0.034)).toThrow(/thickness is 0 m/);
  });
});

describe('diffusivity', () => {
  it('of ice at -20 is 1.293924e-6 m2/s (k 2.32, 919.565 kg/m3, 1949.83 J/kg/K; recomputed)', () => {
    expect(Math.abs(diffusivity(2.32, 919.565, 1949.83) / 1.293924e-6 - 1)).toBeLessThan(1e-6);
    expect(() => diffusivity(2, Number.POSITIVE_INFINITY, 1950)).toThrow(/density is Infinity/);
  });
});
