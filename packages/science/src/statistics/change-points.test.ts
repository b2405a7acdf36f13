import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seeded } from '../random/index.ts';
import { changePoints } from './change-points.ts';

/** Yearly flow of a river, 1871 to 1970 (G. W. Cobb 1978, Biometrika 65, 243-251; data from memory). */
const flow = [
  1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994, 1020, 960, 1180, 799, 958,
  1140, 1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100, 774, 840, 874, 694, 940, 833, 701, 916, 692, 1020,
  1050, 969, 831, 726, 456, 824, 702, 1120, 1100, 832, 764, 821, 768, 845, 864, 862, 698, 845, 744, 796, 1040,
  759, 781, 865, 845, 944, 984, 897, 822, 1010, 771, 676, 649, 846, 812, 742, 801, 1040, 860, 874, 848, 890,
  744, 749, 838, 1050, 918, 986, 797, 923, 975, 815, 1020, 906, 901, 1170, 912, 746, 919, 718, 714, 740,
];

describe('changePoints', () => {
  it("finds the one change of Cobb's series, after 28 years: 1097.75, then 849.97", () => {
    expect(flow.reduce((a, b) => a + b, 0) / 100).toBeCloseTo(919.35, 10);
    const { stretches } = changePoints(flow);
    expect(stretches.map(({ from, to }) => [from, to])).toEqual([
      [0, 28],
      [28, 100],
    ]);
    expect(stretches[0].mean).toBeCloseTo(1097.75, 10);
    expect(stretches[1].mean).toBeCloseTo(849.97, 2);
  });
  it('is the cheapest of all ways to cut a series, one by one', () => {
    const cheapest = (values: readonly number[], penalty: number): number => {
      let least = Number.POSITIVE_INFINITY;
      for (let cuts = 0; cuts < 2 ** (values.length - 1); cuts++) {
        let [total, from] = [-penalty, 0];
        for (let to = 1; to <= values.length; to++) {
          if (to < values.length && !((cuts >> (to - 1)) & 1)) continue;
          const part = values.slice(from, to);
          const mean = part.reduce((a, b) => a + b, 0) / part.length;
          total += penalty + part.reduce((sum, value) => sum + (value - mean) ** 2, 0);
          from = to;
        }
        least = Math.min(least, total);
      }
      return least;
    };
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -4, max: 4 }), { minLength: 4, maxLength: 9 }),
        fc.integer({ min: 0, max: 12 }),
        (values, penalty) => {
          const { stretches } = changePoints(values, { sd: 1, penalty });
          const cost = stretches.reduce(
            (sum, { from, to, mean }) =>
              sum + penalty + values.slice(from, to).reduce((part, value) => part + (value - mean) ** 2, 0),
            -penalty,
          );
          return Math.abs(cost - cheapest(values, penalty)) < 1e-9;
        },
      ),
      { seed: 8, numRuns: 200 },
    );
  });
  it('finds no change in most series that have none', () => {
    let found = 0;
    for (let seed = 1; seed <= 100; seed++) {
      const { normal } = seeded(seed);
      if (changePoints(Array.from({ length: 200 }, normal)).stretches.length > 1) found += 1;
    }
    expect(found).toBeLessThan(15);
  });
  it('refuses fewer than 4 values, and series whose scatter cannot be seen', () => {
    expect(() => changePoints([1, 2, 3])).toThrow(/4 or more/);
    expect(() => changePoints([1, 1, 1, 1, 5, 5])).toThrow(/scatter is 0/);
    expect(() => changePoints([1, 2, Number.NaN, 4])).toThrow(/value 3 is NaN/);
  });
});
