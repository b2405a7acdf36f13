import { describe, expect, it } from 'vitest';
import { permittivity, refractiveIndex, speedByPermittivity, speedInFirn } from './permittivity.ts';

// Kovacs, Gow & Morey 1995, recomputed in Python: g/cm3, permittivity, index, m/us
const rows = [
  [0.3, 1.571262, 1.2535, 239.16431],
  [0.4, 1.790244, 1.338, 224.06013],
  [0.55, 2.145493, 1.46475, 204.67142],
  [0.7, 2.532872, 1.5915, 188.37101],
  [0.83, 2.894592, 1.70135, 176.20857],
  [0.9, 3.09936, 1.7605, 170.28825],
  [0.917, 3.150146, 1.774865, 168.91001],
] as const;

describe('permittivity of firn', () => {
  it('has the values of its formula at seven densities', () => {
    for (const [density, relative, index, speed] of rows) {
      expect(permittivity(1000 * density)).toBeCloseTo(relative, 6);
      expect(refractiveIndex(1000 * density)).toBeCloseTo(index, 9);
      expect(speedInFirn(1000 * density) / 1e6).toBeCloseTo(speed, 5);
      expect(speedByPermittivity(permittivity(1000 * density))).toBeCloseTo(speedInFirn(1000 * density), 5);
    }
  });

  it('is that of vacuum without ice; 3.15 is 168.914 m/us', () => {
    expect(speedInFirn(0)).toBe(299_792_458);
    expect(speedByPermittivity(3.15) / 1e6).toBeCloseTo(168.91391, 5);
  });

  it('refuses grams in a cubic centimetre only where they cannot be kilograms: a density above ice', () => {
    expect(() => speedInFirn(1000)).toThrow(/density is 1000 kg\/m3; allowed: 0 to 940/);
    expect(() => permittivity(Number.NaN)).toThrow(/density is NaN/);
    expect(() => speedByPermittivity(0.9)).toThrow(/relative permittivity is 0.9/);
  });
});
