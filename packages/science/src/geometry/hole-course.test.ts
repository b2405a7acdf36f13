import { describe, expect, it } from 'vitest';
import { course, directionBetween, dogleg, ratioFactor } from './hole-course.ts';

const RADIANS = Math.PI / 180;

describe('course', () => {
  it('by minimum curvature gives the worked example of a drilling handbook', () => {
    // drillingformulas.com, "Minimum Curvature Method", read 2026: 3500 to 3600 ft, 15 to 25 degrees, 20 to 45 degrees;
    // dogleg 0.22605, north 27.22, east 19.45, TVD 94.01 ft, as printed. The ratio factor is printed as 1.00408; by
    // its own formula it is 1.00428, which the printed north, east and TVD agree with.
    const above = { inclination: 15, azimuth: 20 };
    const below = { inclination: 25, azimuth: 45 };
    expect(dogleg(above, below)).toBeCloseTo(0.22605, 5);
    expect(ratioFactor(0.22605)).toBeCloseTo(1.00428, 5);
    const { north, east, vertical } = course(above, below, 100);
    expect(north).toBeCloseTo(27.22, 2);
    expect(east).toBeCloseTo(19.45, 2);
    expect(vertical).toBeCloseTo(94.01, 2);
  });

  it('by average angle gives the worked example of a drilling handbook', () => {
    // netwasgroup.us, "Directional survey calculations", read 2026: 300 ft, 4 to 8 and
    // 10 to 35 degrees; north 28.97, east 12.0, vertical 298.35 ft, as printed
    const { north, east, vertical } = course(
      { inclination: 4, azimuth: 10 },
      { inclination: 8, azimuth: 35 },
      300,
      'average angle',
    );
    expect(north).toBeCloseTo(28.97, 2);
    expect(east).toBeCloseTo(12.0, 2);
    expect(vertical).toBeCloseTo(298.35, 1);
  });

  it('by minimum curvature is exact on an arc in one plane', () => {
    const length = 40;
    for (const bend of [1e-6, 0.01, 3, 30]) {
      const angle = bend * RADIANS;
      const { vertical, north, east } = course(
        { inclination: 0, azimuth: 0 },
        { inclination: bend, azimuth: 30 },
        length,
      );
      const flat = 2 * (length / angle) * Math.sin(angle / 2) ** 2;
      expect(vertical).toBeCloseTo((length / angle) * Math.sin(angle), 9);
      expect(north).toBeCloseTo(flat * Math.cos(30 * RADIANS), 9);
      expect(east).toBeCloseTo(flat * Math.sin(30 * RADIANS), 9);
    }
  });

  it('by minimum curvature is the integral of the direction along the great circle between the two', () => {
    const above = { inclination: 2, azimuth: 350 };
    const below = { inclination: 7, azimuth: 65 };
    const length = 25;
    const n = 4000;
    const sum = { vertical: 0, north: 0, east: 0 };
    for (let i = 0; i < n; i++) {
      const { inclination, azimuth } = directionBetween(above, below, (i + 0.5) / n);
      const step = length / n;
      sum.vertical += step * Math.cos(inclination * RADIANS);
      sum.north += step * Math.sin(inclination * RADIANS) * Math.cos(azimuth * RADIANS);
      sum.east += step * Math.sin(inclination * RADIANS) * Math.sin(azimuth * RADIANS);
    }
    const exact = course(above, below, length);
    expect(exact.vertical).toBeCloseTo(sum.vertical, 7);
    expect(exact.north).toBeCloseTo(sum.north, 7);
    expect(exact.east).toBeCloseTo(sum.east, 7);
  });

  it('by the three methods agrees within 2 mm over 10 m of a hole that is bent by 1 degree', () => {
    const above = { inclination: 3, azimuth: 40 };
    const below = { inclination: 4, azimuth: 42 };
    const [one, two, three] = (['minimum curvature', 'average angle', 'balanced tangential'] as const).map(
      (method) => course(above, below, 10, method).vertical,
    );
    expect(Math.abs(one - two)).toBeLessThan(0.002);
    expect(Math.abs(one - three)).toBeLessThan(0.002);
    expect(one).not.toBe(two);
    expect(one).not.toBe(three);
  });

  it('by average angle takes the short way round north', () => {
    const { east, north } = course(
      { inclination: 5, azimuth: 350 },
      { inclination: 5, azimuth: 10 },
      10,
      'average angle',
    );
    expect(east).toBeCloseTo(0, 12);
    expect(north).toBeCloseTo(10 * Math.sin(5 * RADIANS), 12);
  });
});

describe('dogleg', () => {
  it('is the angle of the usual cosine formula, and keeps its digits where that loses them', () => {
    const above = { inclination: 12, azimuth: 100 };
    const below = { inclination: 17, azimuth: 130 };
    const cosine =
      Math.cos(5 * RADIANS) - Math.sin(12 * RADIANS) * Math.sin(17 * RADIANS) * (1 - Math.cos(30 * RADIANS));
    expect(dogleg(above, below)).toBeCloseTo(Math.acos(cosine), 12);
    expect(
      dogleg({ inclination: 3, azimuth: 7 }, { inclination: 3 + 1e-7, azimuth: 7 }) / RADIANS,
    ).toBeCloseTo(1e-7, 14);
  });

  it('across the vertical is the sum of the two inclinations', () => {
    expect(dogleg({ inclination: 2, azimuth: 10 }, { inclination: 3, azimuth: 190 }) / RADIANS).toBeCloseTo(
      5,
      10,
    );
  });

  it('has a ratio factor without a step where its series takes over', () => {
    expect(ratioFactor(0.9999e-3)).toBeCloseTo(ratioFactor(1.0001e-3), 10);
    expect(ratioFactor(0)).toBe(1);
  });
});
