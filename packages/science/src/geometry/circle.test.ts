import { describe, expect, it } from 'vitest';
import { circleSegment, diskArea, ringArea } from './circle.ts';

describe('circle', () => {
  it('has the area of a disk of 100 mm, 78.5398 cm2, and of the ring of a hole of 126 mm around it, 46.15 cm2', () => {
    expect(diskArea(0.1)).toBeCloseTo(0.00785398, 8);
    expect(ringArea(0.126, 0.1)).toBeCloseTo(0.004615, 8);
  });

  it('has a segment whose area, chord and centroid are those of strips added up', () => {
    for (const [diameter, depth] of [
      [0.098, 0.012],
      [0.098, 0.049],
      [0.131, 0.1],
    ]) {
      const r = diameter / 2;
      const n = 200_000;
      let [area, moment] = [0, 0];
      for (let i = 0; i < n; i++) {
        const x = r - depth + ((i + 0.5) * depth) / n;
        const strip = 2 * Math.sqrt(Math.max(0, r * r - x * x)) * (depth / n);
        area += strip;
        moment += strip * x;
      }
      const segment = circleSegment(diameter, depth);
      expect(segment.area / area).toBeCloseTo(1, 7);
      expect(segment.centroid).toBeCloseTo(moment / area, 8);
      expect(segment.chord).toBeCloseTo(2 * Math.sqrt(r * r - (r - depth) ** 2), 12);
    }
  });

  it('has a half disk with its centroid at 4r/(3 pi) and a whole one with it in the middle', () => {
    const half = circleSegment(0.2, 0.1);
    expect(half.area).toBeCloseTo((Math.PI * 0.01) / 2, 12);
    expect(half.centroid).toBeCloseTo(0.4 / (3 * Math.PI), 12);
    const whole = circleSegment(0.2, 0.2);
    expect(whole.area).toBeCloseTo(Math.PI * 0.01, 12);
    expect(whole.centroid).toBe(0);
  });

  it('has a centroid without a step where a cut gets too shallow for the quotient', () => {
    expect(circleSegment(0.1, 0.1000001e-6).centroid).toBeCloseTo(
      circleSegment(0.1, 0.0999999e-6).centroid,
      10,
    );
    expect(circleSegment(0.1, 0).centroid).toBe(0.05);
  });

  it('refuses a cut deeper than the core and a ring that is none', () => {
    expect(() => circleSegment(0.1, 0.11)).toThrow(
      /depth of the cut is 0.11 m; allowed: 0 m to 0.1 m|0 to 0.1 m/,
    );
    expect(() => ringArea(0.1, 0.1)).toThrow(/below the outer one, 0.1 m/);
    expect(() => diskArea(Number.NaN)).toThrow(/diameter is NaN m/);
  });
});
