import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { circleSegment, diskArea } from './circle.ts';
import type { Point, Polygon } from './polygon.ts';
import { distanceToFace, stickOf } from './stick.ts';

const turned = (polygon: Polygon, angle: number): Polygon =>
  polygon.map(([x, y]) => [
    x * Math.cos(angle) - y * Math.sin(angle),
    x * Math.sin(angle) + y * Math.cos(angle),
  ]);
const box = (x0: number, y0: number, x1: number, y1: number): Polygon => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];
/** A star-shaped polygon about a point of the core, some of it beyond the core. */
const anyPolygon = fc
  .record({
    x: fc.double({ min: -0.03, max: 0.03, noNaN: true }),
    y: fc.double({ min: -0.03, max: 0.03, noNaN: true }),
    reaches: fc.array(fc.double({ min: 0.005, max: 0.07, noNaN: true }), { minLength: 3, maxLength: 9 }),
  })
  .map(
    ({ x, y, reaches }): Polygon =>
      reaches.map((reach, i) => {
        const angle = (2 * Math.PI * i) / reaches.length;
        return [x + reach * Math.cos(angle), y + reach * Math.sin(angle)];
      }),
  );

describe('stick', () => {
  it('inside of the core is a plain polygon: area, centroid, distance of its farthest corner to the rim', () => {
    // area and centroid of the trapezium by hand: two triangles
    const stick = stickOf(
      [
        [-0.02, -0.01],
        [0.03, -0.01],
        [0.02, 0.015],
        [-0.01, 0.015],
      ],
      0.1,
    );
    expect(stick.area).toBeCloseTo(((0.05 + 0.03) / 2) * 0.025, 12);
    expect(stick.centroid[0]).toBeCloseTo(0.005, 12);
    expect(stick.centroid[1]).toBeCloseTo(-0.01 + (0.025 / 3) * ((0.05 + 2 * 0.03) / (0.05 + 0.03)), 12);
    expect(stick.toRim).toBeCloseTo(0.05 - Math.hypot(0.03, 0.01), 12);
  });

  it('around the whole core is the core', () => {
    const { area, centroid, toRim } = stickOf(box(-0.2, -0.3, 0.4, 0.5), 0.1);
    expect(area).toBeCloseTo(diskArea(0.1), 14);
    expect(Math.hypot(...centroid)).toBeLessThan(1e-15);
    expect(toRim).toBe(0);
  });

  it('beyond a straight cut is the segment of the handbooks, whichever way the cut runs', () => {
    for (const [depth, angle] of [
      [0.011, 0],
      [0.05, 0.7],
      [0.083, 2.4],
    ]) {
      const { area, chord, centroid } = circleSegment(0.1, depth);
      const stick = stickOf(turned(box(0.05 - depth, -0.09, 0.08, 0.07), angle), 0.1);
      expect(chord).toBeGreaterThan(0);
      expect(stick.area).toBeCloseTo(area, 13);
      expect(stick.centroid[0]).toBeCloseTo(centroid * Math.cos(angle), 13);
      expect(stick.centroid[1]).toBeCloseTo(centroid * Math.sin(angle), 13);
    }
  });

  it('has the area and centroid that a fine grid counts', () => {
    const polygon: Polygon = [
      [-0.01, -0.03],
      [0.07, -0.02],
      [0.01, 0.005],
      [0.03, 0.06],
      [-0.03, 0.02],
    ];
    const n = 1500;
    let [count, sumX, sumY] = [0, 0, 0];
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) {
        const [x, y] = [-0.05 + (0.1 * (i + 0.5)) / n, -0.05 + (0.1 * (j + 0.5)) / n];
        let inside = x * x + y * y < 0.0025;
        if (inside) {
          inside = false;
          for (let k = 0; k < polygon.length; k++) {
            const [a, b] = [polygon[k], polygon[(k + 1) % polygon.length]];
            if (a[1] > y !== b[1] > y && x < a[0] + ((b[0] - a[0]) * (y - a[1])) / (b[1] - a[1]))
              inside = !inside;
          }
        }
        if (inside) {
          count++;
          sumX += x;
          sumY += y;
        }
      }
    const { area, centroid } = stickOf(polygon, 0.1);
    expect(area / (count * (0.1 / n) ** 2)).toBeCloseTo(1, 3);
    expect(centroid[0]).toBeCloseTo(sumX / count, 5);
    expect(centroid[1]).toBeCloseTo(sumY / count, 5);
  });

  it('keeps its area when it is turned, mirrored, or written down the other way or from another corner', () => {
    fc.assert(
      fc.property(anyPolygon, fc.double({ min: 0, max: 6, noNaN: true }), (polygon, angle) => {
        const { area, centroid, toRim } = stickOf(polygon, 0.1);
        const mirrored = polygon.map(([x, y]): Point => [x, -y]);
        for (const other of [
          turned(polygon, angle),
          mirrored,
          polygon.toReversed(),
          [...polygon.slice(1), polygon[0]],
        ]) {
          const found = stickOf(other, 0.1);
          expect(Math.abs(found.area - area)).toBeLessThan(1e-14);
          expect(Math.abs(found.toRim - toRim)).toBeLessThan(1e-14);
          expect(Math.abs(Math.hypot(...found.centroid) - Math.hypot(...centroid))).toBeLessThan(1e-12);
        }
      }),
    );
  });

  it('parted by a cut is its two parts, in area and in moment', () => {
    fc.assert(
      fc.property(fc.double({ min: -0.045, max: 0.045, noNaN: true }), (cut) => {
        const [left, right] = [
          stickOf(box(-0.08, -0.02, cut, 0.03), 0.1),
          stickOf(box(cut, -0.02, 0.06, 0.03), 0.1),
        ];
        const whole = stickOf(box(-0.08, -0.02, 0.06, 0.03), 0.1);
        expect(left.area + right.area).toBeCloseTo(whole.area, 14);
        for (const k of [0, 1])
          expect(left.area * left.centroid[k] + right.area * right.centroid[k]).toBeCloseTo(
            whole.area * whole.centroid[k],
            14,
          );
      }),
    );
  });

  it('refuses a polygon beside the core', () => {
    expect(() => stickOf(box(0.06, 0, 0.09, 0.02), 0.1)).toThrow(/holds nothing of the core/);
    expect(() => stickOf(box(0, 0, 0.09, 0.02), 0)).toThrow(/diameter of the core is 0 m/);
  });
});

describe('distance of a stick to a sawn face', () => {
  const stick = box(-0.015, -0.02, 0.012, 0.01);

  it('is to its nearest side, corner, or to the end of the face', () => {
    expect(
      distanceToFace(stick, 0.1, [
        [0.03, -0.04],
        [0.03, 0.04],
      ]),
    ).toBeCloseTo(0.018, 12);
    expect(
      distanceToFace(stick, 0.1, [
        [0.02, 0.016],
        [0.04, 0.03],
      ]),
    ).toBeCloseTo(Math.hypot(0.008, 0.006), 12);
    expect(
      distanceToFace(stick, 0.1, [
        [0, 0.05],
        [0, 0.0145],
      ]),
    ).toBeCloseTo(0.0045, 12);
  });

  it('is nothing where the face touches, crosses or lies within', () => {
    expect(
      distanceToFace(stick, 0.1, [
        [0.012, -0.03],
        [0.012, 0.03],
      ]),
    ).toBe(0);
    expect(
      distanceToFace(stick, 0.1, [
        [-0.04, 0],
        [0.04, 0.001],
      ]),
    ).toBe(0);
    expect(
      distanceToFace(stick, 0.1, [
        [0, 0],
        [0.001, 0.002],
      ]),
    ).toBe(0);
    // the polygon is wider than the core: the face passes through drilled sides alone
    expect(
      distanceToFace(box(-0.2, -0.3, 0.2, 0.3), 0.1, [
        [-0.1, 0.01],
        [0.1, 0.02],
      ]),
    ).toBe(0);
  });

  it('does not count what of the polygon is beyond the core', () => {
    // the right side of the stick is the drilled surface
    const beyond = box(0.02, -0.02, 0.3, 0.02);
    expect(
      distanceToFace(beyond, 0.1, [
        [0.07, 0],
        [0.09, 0.001],
      ]),
    ).toBeCloseTo(0.02, 12);
    expect(
      distanceToFace(beyond, 0.1, [
        [0.06, -0.5],
        [0.06, 0.5],
      ]),
    ).toBeCloseTo(0.01, 12);
    // above its upper corner, where the side ends
    const corner = [Math.sqrt(0.0025 - 0.0004), 0.02] as const;
    expect(
      distanceToFace(beyond, 0.1, [
        [0.046, 0.03],
        [0.046, 0.035],
      ]),
    ).toBeCloseTo(Math.hypot(0.046 - corner[0], 0.01), 12);
  });

  it('is no more than to any point of its sawn sides', () => {
    fc.assert(
      fc.property(
        anyPolygon,
        fc.tuple(...Array.from({ length: 4 }, () => fc.double({ min: -0.08, max: 0.08, noNaN: true }))),
        (polygon, [x1, y1, x2, y2]) => {
          fc.pre(Math.hypot(x2 - x1, y2 - y1) > 1e-3);
          const found = distanceToFace(polygon, 0.1, [
            [x1, y1],
            [x2, y2],
          ]);
          let least = Number.POSITIVE_INFINITY;
          const n = 240;
          for (let k = 0; k <= n; k++) {
            const [px, py] = [x1 + ((x2 - x1) * k) / n, y1 + ((y2 - y1) * k) / n];
            for (let i = 0; i < polygon.length; i++) {
              const [a, b] = [polygon[i], polygon[(i + 1) % polygon.length]];
              for (let j = 0; j <= 60; j++) {
                const [qx, qy] = [a[0] + ((b[0] - a[0]) * j) / 60, a[1] + ((b[1] - a[1]) * j) / 60];
                if (Math.hypot(qx, qy) <= 0.05) least = Math.min(least, Math.hypot(px - qx, py - qy));
              }
            }
          }
          expect(found).toBeLessThanOrEqual(least + 1e-12);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('refuses a face that has no place', () => {
    expect(() =>
      distanceToFace(stick, 0.1, [
        [0, 0],
        [Number.NaN, 1],
      ]),
    ).toThrow(/x of the second end of the face is NaN/);
    expect(() =>
      distanceToFace(stick, 0.1, [
        [0.03, 0.01],
        [0.03, 0.01],
      ]),
    ).toThrow(/two ends/);
  });
});
