import { describe, expect, it } from 'vitest';
import { referenceDelta, slapRatio } from './reference-waters.ts';

describe('reference waters', () => {
  // CIAAW, hydrogen reference materials, expanded uncertainties (k = 2); IUPAC 1993 for SLAP
  it.each([
    ['GISP', -189.7, 0.9],
    ['GISP2', -258.3, 0.3],
    ['USGS45', -10.3, 0.4],
    ['USGS46', -235.8, 0.7],
    ['USGS47', -150.2, 0.5],
    ['USGS48', -2, 0.4],
    ['SLAP', -428, 0],
  ])('%s has %d permil of 2H, give or take %d (k = 2)', (water, delta, expanded) => {
    expect(referenceDelta(water, '2H').value).toBe(delta);
    expect(2 * referenceDelta(water, '2H').sd).toBeCloseTo(expanded, 12);
  });

  it('SLAP has 0.572 of the 2H and 0.9445 of the 18O of VSMOW', () => {
    expect(slapRatio('2H')).toBeCloseTo(0.572, 14);
    expect(slapRatio('18O')).toBeCloseTo(0.9445, 14);
  });

  it('names the waters it has where one is not', () => {
    expect(() => referenceDelta('USGS45', '18O')).toThrow(
      /USGS45 has no delta 18O here; allowed: VSMOW SLAP/,
    );
    expect(() => referenceDelta('tap', '2H')).toThrow(/tap has no/);
  });
});
