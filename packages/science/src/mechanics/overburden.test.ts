import { describe, expect, it } from 'vitest';
import { herronLangway } from '../firn/index.ts';
import { fluidPressure, overburden, overburdenAll } from './overburden.ts';

const g = 9.81;

describe('overburden', () => {
  it('is mean density, gravity and depth multiplied: 882.9 kPa below 100 m of 900 kg/m3', () => {
    expect(overburden(900, 100, g)).toBeCloseTo(882_900, 6);
  });

  it('of layers is their masses added up, within a layer, at its bottom and below the last one', () => {
    const bottoms = [4, 10, 35];
    const densities = [380, 520, 700];
    const out = overburdenAll(bottoms, densities, [0, 3, 4, 20, 35, 40], g, new Float64Array(6));
    const at = [0, 3 * 380, 4 * 380, 4 * 380 + 6 * 520 + 10 * 700].concat([
      4 * 380 + 6 * 520 + 25 * 700,
      4 * 380 + 6 * 520 + 30 * 700,
    ]);
    at.forEach((mass, i) => {
      expect(out[i]).toBeCloseTo(g * mass, 6);
    });
  });

  it('of ten thousand thin layers of firn is gravity times the water equivalent of the same firn in closed form', () => {
    const column = herronLangway({ temperature: 252, accumulation: 0.42, surfaceDensity: 350 });
    const n = 10_000;
    const bottoms = Float64Array.from({ length: n }, (_, i) => (90 * (i + 1)) / n);
    const densities = bottoms.map((bottom) => column.density(bottom - 45 / n));
    const [pressure] = overburdenAll(bottoms, densities, [70.5], g, new Float64Array(1));
    expect(pressure / (1000 * g)).toBeCloseTo(column.waterEquivalent(70.5), 4);
  });

  it('refuses layers out of order, a density of gas, series that don’t fit each other', () => {
    const room = new Float64Array(1);
    expect(() => overburdenAll([5, 3], [400, 500], [4], g, room)).toThrow(/bottom of layer 2 is 3 m/);
    expect(() => overburdenAll([5], [4], [4], g, room)).toThrow(/density of layer 1 is 4 kg\/m3/);
    expect(() => overburdenAll([5, 9], [400], [4], g, room)).toThrow(/2 layers have 1 densities/);
    expect(() => overburdenAll([5], [400], [4, 2], g, room)).toThrow(/room for 1/);
    expect(() => overburden(0.9, 100, g)).toThrow(/mean density is 0.9/);
    expect(() => overburden(900, 100, 1.62)).toThrow(/gravity is 1.62/);
  });
});

describe('fluid pressure', () => {
  it('is nothing above the fluid, and grows by its weight below', () => {
    expect(fluidPressure(930, 40, 35, g)).toBe(0);
    expect(fluidPressure(930, 40, 120, g)).toBeCloseTo(930 * g * 80, 6);
    expect(fluidPressure(0, 0, 120, g)).toBe(0);
  });
});
