import { describe, expect, it } from 'vitest';
import { called } from '../relations/called.suite.ts';

describe('relations of geometry', () => {
  it('circle-segment of half a core has half of it, as wide as the core', () => {
    const found = called('circle-segment', { diameter: '98 mm', depth: '49 mm' });
    expect(found.part.value).toBeCloseTo(50, 9);
    expect(found.chord.value).toBeCloseTo(98, 9);
  });

  it('stick in millimetres gives square centimetres, mass of a metre and distance to the rim', () => {
    const found = called('stick', {
      xs: '-15 12 12 -15 mm',
      ys: '-20 -20 10 10 mm',
      diameter: '100 mm',
      density: '850 kg/m3',
    });
    expect(found.area.value).toBeCloseTo(8.1, 9);
    expect(found.mass.value).toBeCloseTo(0.6885, 9);
    expect(found.x.value).toBeCloseTo(-1.5, 9);
    expect(found.y.value).toBeCloseTo(-5, 9);
    expect(found.toRim.value).toBeCloseTo(25, 9);
  });

  it('stick carries the doubt of the diameter into the distance to the drilled surface, not into its own area', () => {
    const found = called('stick', {
      xs: '-15 12 12 -15 mm',
      ys: '-20 -20 10 10 mm',
      diameter: '100 ± 0.6 mm',
    });
    expect(found.toRim.sd).toBeCloseTo(0.3, 9);
    expect(found.area.sd).toBe(0);
  });

  it('stick-to-face gives the distance, and refuses a corner that lacks its y', () => {
    const written = { xs: '-15 12 12 -15 mm', ys: '-20 -20 10 10 mm', diameter: '100 mm' };
    const face = { x1: '30 mm', y1: '-40 mm', x2: '30 mm', y2: '41 mm' };
    expect(called('stick-to-face', { ...written, ...face }).distance.value).toBeCloseTo(18, 9);
    expect(() => called('stick-to-face', { ...written, ...face, ys: '-20 -20 10 mm' })).toThrow(
      /y of corner 4 is NaN m/,
    );
  });

  it('hole-deviation gives vertical depths by the way that is named, with the doubt of the angles', () => {
    const written = {
      depths: '20 60 100 m',
      inclinations: '1 3 6 ± 0.3 deg',
      azimuths: '40 55 60 deg',
    };
    const found = called('hole-deviation', written);
    // worked example of the page on inclination, 10 m farther up
    expect(found.vertical.value).toBeCloseTo(99.843, 3);
    expect((found.verticals.value as readonly number[])[0]).toBeCloseTo(20 * Math.cos(Math.PI / 180), 9);
    expect(found.vertical.sd).toBeGreaterThan(0);
    const other = called('hole-deviation', { ...written, method: 'average angle' });
    expect(other.vertical.value).not.toBe(found.vertical.value);
    expect(() => called('hole-deviation', { ...written, azimuths: '40 55 deg' })).toThrow(
      /azimuth of station 3 is NaN/,
    );
  });
});
