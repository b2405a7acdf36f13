import { describe, expect, it } from 'vitest';
import { seeded } from '../random/index.ts';
import { verticalDepths, verticalPieces } from './vertical.ts';

const RADIANS = Math.PI / 180;
const station = (depth: number, inclination: number, azimuth: number, inclinationSd = 0, azimuthSd = 0) => ({
  depth,
  inclination,
  azimuth,
  inclinationSd,
  azimuthSd,
});
const exact = (...values: readonly number[]) => values.map((value) => ({ value, sd: 0 }));

describe('verticalDepths', () => {
  it('of a straight hole is the depth times the cosine, below the last station too, and says so', () => {
    const [above, at, below] = verticalDepths([station(20, 5, 80), station(60, 5, 80)], exact(7, 60, 100));
    for (const one of [above, at, below])
      expect(one.vertical.value).toBeCloseTo(one.along * Math.cos(5 * RADIANS), 10);
    expect(below.north).toBeCloseTo(100 * Math.sin(5 * RADIANS) * Math.cos(80 * RADIANS), 10);
    expect([above, at, below].map((one) => one.isBelowStations)).toEqual([false, false, true]);
  });

  it('of a hole that bends by 2 degrees in every 30 m is that of the circle', () => {
    // a circle of radius 30 m / (2 degrees)
    const radius = 30 / (2 * RADIANS);
    const stations = [0, 30, 60, 90, 120].map((depth, i) => station(depth, 2 * i, 0));
    for (const one of verticalDepths(stations, exact(11, 30, 47.3, 104)))
      expect(one.vertical.value).toBeCloseTo(radius * Math.sin(one.along / radius), 9);
  });

  it('without azimuths takes the hole as lying in one plane and says nothing of where it goes', () => {
    const tilted = [0, 30, 60].map((depth) => ({ depth, inclination: depth / 20, inclinationSd: 0.1 }));
    const plane = [0, 30, 60].map((depth) => station(depth, depth / 20, 200, 0.1));
    const [one] = verticalDepths(tilted, exact(55));
    const [other] = verticalDepths(plane, exact(55));
    expect(one.vertical.value).toBeCloseTo(other.vertical.value, 12);
    expect([one.north, one.east]).toEqual([null, null]);
  });

  it('carries the doubt of inclinations, azimuths and of the depth itself, as random draws do', () => {
    const stations = [
      station(0, 1, 20, 0.3, 5),
      station(25, 4, 35, 0.3, 5),
      station(50, 7, 30, 0.4, 5),
      station(75, 6, 55, 0.3, 5),
    ];
    const depth = { value: 90, sd: 0.05 };
    const [{ vertical }] = verticalDepths(stations, [depth]);
    const random = seeded(11);
    const drawn: number[] = [];
    for (let i = 0; i < 4000; i++) {
      const moved = stations.map((one) => ({
        ...one,
        inclination: Math.abs(one.inclination + one.inclinationSd * random.normal()),
        azimuth: one.azimuth + one.azimuthSd * random.normal(),
      }));
      drawn.push(verticalDepths(moved, exact(depth.value + depth.sd * random.normal()))[0].vertical.value);
    }
    const mean = drawn.reduce((sum, one) => sum + one, 0) / drawn.length;
    const sd = Math.sqrt(drawn.reduce((sum, one) => sum + (one - mean) ** 2, 0) / drawn.length);
    expect(Math.abs(vertical.sd / sd - 1)).toBeLessThan(0.05);
    expect(vertical.sd).toBeGreaterThan(0.05);
  });

  it('of a vertical hole has doubt from the tilt although the slope is 0 there', () => {
    const [{ vertical }] = verticalDepths([station(0, 0, 0, 1), station(100, 0, 0, 1)], exact(100));
    expect(vertical.value).toBe(100);
    expect(vertical.sd).toBeGreaterThan(0.003);
    expect(vertical.sd).toBeLessThan(0.03);
  });
});

describe('verticalPieces', () => {
  it('gives top and bottom of every piece with the doubt of both', () => {
    const end = (value: number) => ({ value, sd: 0.02, min: value - 0.1, max: value + 0.1 });
    const pieces = [
      { id: 'a', run: '1', top: end(40), bottom: end(40.7) },
      { id: 'b', run: '1', top: end(40.71), bottom: end(41.2) },
    ];
    const [a, b] = verticalPieces([station(0, 10, 0)], pieces);
    expect(a.id).toBe('a');
    expect(a.bottom.vertical.value).toBeCloseTo(40.7 * Math.cos(10 * RADIANS), 10);
    expect(b.top.vertical.sd).toBeCloseTo(0.02 * Math.cos(10 * RADIANS), 10);
  });
});
