import { describe, expect, it } from 'vitest';
import { verticalDepths } from '../depth-scales/index.ts';
import { holePath } from './hole-path.ts';

const radians = Math.PI / 180;

describe('path of a hole', () => {
  it('on a circle in a plane is that circle, by minimum curvature, however few the stations', () => {
    // radius R: after an arc s the direction has turned by s/R; down R sin, out R (1 - cos)
    const radius = 400;
    const depths = [0, 35, 80, 140];
    const directions = depths.map((s) => ({ inclination: s / radius / radians, azimuth: 72 }));
    const { points, sharpestBend } = holePath(depths, directions, 'minimum curvature');
    points.forEach(({ vertical, north, east }, i) => {
      const angle = depths[i] / radius;
      expect(vertical).toBeCloseTo(radius * Math.sin(angle), 9);
      const out = radius * (1 - Math.cos(angle));
      expect(north).toBeCloseTo(out * Math.cos(72 * radians), 9);
      expect(east).toBeCloseTo(out * Math.sin(72 * radians), 9);
    });
    expect(sharpestBend).toBeCloseTo(1 / radius / radians, 9);
  });

  it('on a helix comes to its closed form as the stations get closer, and by average angle as well', () => {
    // inclination I held, azimuth turning evenly: one turn in `turn` metres along the hole
    const [inclination, turn, end] = [3, 200, 150];
    const miss = (n: number, method: 'minimum curvature' | 'average angle') => {
      const depths = Array.from({ length: n + 1 }, (_, i) => (end * i) / n);
      const directions = depths.map((s) => ({ inclination, azimuth: (360 * s) / turn }));
      const last = holePath(depths, directions, method).points[n];
      const w = (2 * Math.PI) / turn;
      const flat = Math.sin(inclination * radians) / w;
      return Math.hypot(
        last.vertical - end * Math.cos(inclination * radians),
        last.north - flat * Math.sin(w * end),
        last.east - flat * (1 - Math.cos(w * end)),
      );
    };
    for (const method of ['minimum curvature', 'average angle'] as const) {
      expect(miss(15, method)).toBeLessThan(0.12);
      // second order: half the distance, a quarter of the miss
      expect(miss(30, method) / miss(60, method)).toBeCloseTo(4, 1);
    }
  });

  it('is where vertical depths of the same stations are', () => {
    const stations = [
      [20, 1, 40],
      [60, 3, 55],
      [100, 6, 350],
    ].map(([depth, inclination, azimuth]) => ({ depth, inclination, azimuth, inclinationSd: 0 }));
    const { points } = holePath(
      stations.map(({ depth }) => depth),
      stations,
      'balanced tangential',
    );
    const same = verticalDepths(
      stations,
      stations.map(({ depth }) => ({ value: depth, sd: 0 })),
      'balanced tangential',
    );
    points.forEach((point, i) => {
      expect(point.vertical).toBeCloseTo(same[i].vertical.value, 12);
      expect(point.north).toBeCloseTo(same[i].north!, 12);
      expect(point.east).toBeCloseTo(same[i].east!, 12);
    });
  });

  it('refuses no station, depths out of order, a hole that goes up, an azimuth that is missing', () => {
    const down = { inclination: 2, azimuth: 10 };
    expect(() => holePath([], [], 'average angle')).toThrow(/0 depths have 0 directions/);
    expect(() => holePath([10, 9], [down, down], 'average angle')).toThrow(/depth of station 2 is 9 m/);
    expect(() => holePath([10], [{ inclination: 95, azimuth: 0 }], 'average angle')).toThrow(
      /inclination of station 1 is 95 deg/,
    );
    expect(() => holePath([10], [{ inclination: 5, azimuth: Number.NaN }], 'average angle')).toThrow(
      /azimuth of station 1 is NaN/,
    );
  });
});
