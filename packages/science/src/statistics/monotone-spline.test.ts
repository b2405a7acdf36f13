import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { monotoneSpline } from './monotone-spline.ts';

/** Data and values of the GNU Scientific Library, interpolation/test.c, "steffen interpolation test 2". */
const x = [
  4.673405471947611, 4.851675778029557, 6.185473620119991, 7.066003430727031, 7.236222118389267,
  7.82067161881444, 8.054504031621493, 8.615033792800752, 9.16666529764867, 9.442092828126395,
  10.719577968900381, 11.741967577609238, 12.564881194673035,
];
const y = [
  -6.131584089652438, 4.997132870704837, 9.50359639889188, -3.788474042493764, 1.98825324341826,
  -6.553460294945401, 8.44565760012345, -3.643687601520438, -4.720262269613782, -5.31956608504474,
  4.7484698519996655, 1.8191111043001218, 2.7234424260251124,
];
const known: readonly (readonly [x: number, value: number, slope: number])[] = [
  [4.8575586235375265, 5.0367975988827167, 6.727537246743899],
  [5.5941712298971886, 8.6179199248946077, 2.9956803444124378],
  [6.3307838362568507, 8.5371013292095554, -12.480296842307126],
  [6.8832432910265968, -2.3083133782071208, -14.897221093874615],
  [7.4357027457963438, -0.31768851396215103, -19.714311699236049],
  [7.9881622005660908, 5.5087083141507147, 78.213312807624717],
  [8.356468503745921, 1.9932653799771245, -31.350476855816961],
  [8.9089279585156689, -4.3315242293057175, -1.3740294011308083],
  [9.277234261695499, -5.0157009305506106, -2.8800570317456784],
  [9.8296937164652469, -3.1014810884327102, 9.9941697310971538],
  [10.750459474414823, 4.740613456600772, -0.50358091648162351],
];
// The Fritsch & Carlson data of the paper's table 1 (from memory; also in Hyman 1983)
const steep = {
  x: [7.99, 8.09, 8.19, 8.7, 9.2, 10, 12, 15, 20],
  y: [0, 2.76429e-5, 4.37498e-2, 0.169183, 0.469428, 0.94374, 0.998636, 0.999919, 0.999994],
};

describe('monotoneSpline', () => {
  it.each(known)("Steffen's at %d is that of the reference library", (at, value, slope) => {
    const curve = monotoneSpline(x, y);
    expect(curve.at(at)).toBeCloseTo(value, 11);
    expect(curve.slopeAt(at)).toBeCloseTo(slope, 10);
  });
  it.each(['Steffen 1990', 'Fritsch & Carlson 1980'] as const)(
    '%s: rising data give a rising curve, through them',
    (variant) => {
      fc.assert(
        fc.property(
          fc.array(
            fc.tuple(
              fc.double({ min: 0.01, max: 5, noNaN: true }),
              fc.double({ min: 0, max: 100, noNaN: true }),
            ),
            {
              minLength: 2,
              maxLength: 12,
            },
          ),
          (steps) => {
            const xs = steps.map((_, i) => steps.slice(0, i + 1).reduce((sum, [dx]) => sum + dx, 0));
            const ys = steps.map((_, i) => steps.slice(0, i + 1).reduce((sum, [, dy]) => sum + dy, 0));
            const curve = monotoneSpline(xs, ys, variant);
            const [from, to] = [xs[0], xs[xs.length - 1]];
            let before = Number.NEGATIVE_INFINITY;
            for (let k = 0; k <= 200; k++) {
              const value = curve.at(Math.min(from + (k / 200) * (to - from), to));
              if (value < before - 1e-9) return false;
              before = value;
            }
            return xs.every((at, i) => Math.abs(curve.at(at) - ys[i]) < 1e-9);
          },
        ),
        { seed: 5, numRuns: 150 },
      );
    },
  );
  it('Fritsch & Carlson: no slope leaves the circle of radius 3, and the steep data stay between 0 and 1', () => {
    const curve = monotoneSpline(steep.x, steep.y, 'Fritsch & Carlson 1980');
    for (let i = 0; i + 1 < steep.x.length; i++) {
      const rise = (steep.y[i + 1] - steep.y[i]) / (steep.x[i + 1] - steep.x[i]);
      expect(Math.hypot(curve.slopeAt(steep.x[i]), curve.slopeAt(steep.x[i + 1])) / rise).toBeLessThan(
        3 + 1e-9,
      );
    }
    for (let at = 8; at < 20; at += 0.05) {
      expect(curve.at(at)).toBeGreaterThanOrEqual(0);
      expect(curve.at(at)).toBeLessThanOrEqual(1);
    }
  });
  it('gives back a straight line, and two knots are one', () => {
    for (const variant of ['Steffen 1990', 'Fritsch & Carlson 1980'] as const) {
      expect(monotoneSpline([0, 1, 3, 4], [1, 3, 7, 9], variant).at(2.3)).toBeCloseTo(5.6, 13);
      expect(monotoneSpline([0, 2], [1, 5], variant).at(0.7)).toBeCloseTo(2.4, 13);
    }
  });
  it('many at once are the single ones, whatever their order', () => {
    const curve = monotoneSpline(x, y);
    const at = Float64Array.of(9.9, 5.1, 5.2, 12.5, 4.7);
    const out = new Float64Array(at.length);
    curve.atAll(at, out);
    expect([...out]).toEqual([...at].map(curve.at));
  });
  it('refuses x outside of the knots, and knots that do not rise', () => {
    expect(() => monotoneSpline(x, y).at(4.6)).toThrow(/x is 4.6/);
    expect(() => monotoneSpline([1, 1, 2], [3, 4, 5])).toThrow(/x 2 is 1 after 1/);
  });
});
