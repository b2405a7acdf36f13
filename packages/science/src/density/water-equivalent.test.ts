import { describe, expect, it } from 'vitest';
import { herronLangway } from '../firn/herron-langway.ts';
import { openTable } from '../published-checks.suite.ts';
import { seeded } from '../random/index.ts';
import { densityProfile } from './profile.ts';
import { layerWaterEquivalent, type WaterPiece, waterEquivalentScale } from './water-equivalent.ts';

const column = herronLangway({ temperature: 253.15, accumulation: 0.4, surfaceDensity: 360 });
const waterOf = (top: number, bottom: number) => column.waterEquivalent(bottom) - column.waterEquivalent(top);

interface Made {
  readonly pieces: readonly WaterPiece[];
  readonly profile: ReturnType<typeof densityProfile>;
}

/** A core of 50 m in pieces of 0.8 m with 5 cm lost between them. */
const made = (
  error: { area: () => number; length: () => number; scale: number },
  weighed = (_: number) => true,
): Made => {
  const all = Array.from({ length: 58 }, (_, i) => {
    const top = i * 0.85 + 0.05;
    const bottom = top + 0.8;
    const water = waterOf(top, bottom) * (1 + error.area()) * (1 + error.scale);
    return {
      id: `${i}`,
      top,
      bottom,
      cutterSet: 'a',
      water,
      density: (1000 * water * (1 + error.length())) / 0.8,
    };
  });
  const pieces = all.map(({ id, top, bottom, cutterSet, water }, i) => ({
    id,
    top,
    bottom,
    cutterSet,
    measured: weighed(i) ? { waterEquivalent: water, area: 0.006, length: 0.003, shared: 0.004 } : null,
  }));
  const profile = densityProfile(
    all
      .filter((_, i) => weighed(i))
      .map(({ id, top, bottom, cutterSet, density }) => ({
        id,
        top,
        bottom,
        cutterSet,
        density,
        randomSd: density * Math.hypot(0.006, 0.003),
        sharedShare: 0.004,
      })),
    6,
  );
  return { pieces, profile };
};
const exact = { area: () => 0, length: () => 0, scale: 0 };

describe('cumulative water equivalent', () => {
  it('is that of the firn it was made from, gaps filled: w.e. depth is accumulation times age', () => {
    const { pieces, profile } = made(exact);
    const scale = waterEquivalentScale(pieces, profile);
    for (let depth = 0.5; depth < 49; depth += 2.3) {
      const water = scale.waterAt(depth).value;
      expect(Math.abs(water - column.waterEquivalent(depth))).toBeLessThan(0.002);
      expect(Math.abs(water - 0.4 * column.age(depth))).toBeLessThan(0.002);
    }
    expect(scale.weighed).toBeCloseTo((58 * 0.8) / (58 * 0.85), 3);
  });

  it('fills pieces that were not weighed from the profile, and is less sure of them', () => {
    const { pieces, profile } = made(exact, (i) => i < 20 || i > 23);
    const scale = waterEquivalentScale(pieces, profile);
    expect(Math.abs(scale.waterAt(49).value / column.waterEquivalent(49) - 1)).toBeLessThan(1e-3);
    const whole = waterEquivalentScale(made(exact).pieces, made(exact).profile);
    expect(scale.waterAt(20.5).randomSd).toBeGreaterThan(whole.waterAt(20.5).randomSd);
  });

  it('leads back: depth to w.e. to depth, everywhere; both only grow', () => {
    const { pieces, profile } = made(exact);
    const scale = waterEquivalentScale(pieces, profile);
    let last = -1;
    for (let depth = 0; depth <= 49.3; depth += 0.037) {
      const water = scale.waterAt(depth);
      expect(water.value).toBeGreaterThan(last);
      last = water.value;
      expect(scale.depthAt(water.value).value).toBeCloseTo(depth, 9);
    }
    expect(scale.depthAt(10).randomSd / scale.waterAt(scale.depthAt(10).value).randomSd).toBeCloseTo(
      1000 / column.density(scale.depthAt(10).value),
      1,
    );
  });

  it('states errors that hold: 95 % intervals of 200 simulated cores hold the truth in 92 to 98 %', () => {
    const random = seeded(17);
    let [inside, all] = [0, 0];
    for (let run = 0; run < 200; run++) {
      const { pieces, profile } = made(
        {
          area: () => 0.006 * random.normal(),
          length: () => 0.003 * random.normal(),
          scale: 0.004 * random.normal(),
        },
        (i) => i % 9 !== 4 && (i < 30 || i > 33),
      );
      const scale = waterEquivalentScale(pieces, profile);
      for (const depth of [5, 12, 20, 27, 33, 40, 48]) {
        const { value, randomSd, sharedSd } = scale.waterAt(depth);
        if (Math.abs(value - column.waterEquivalent(depth)) <= 1.96 * Math.hypot(randomSd, sharedSd))
          inside += 1;
        all += 1;
      }
    }
    expect(inside / all).toBeGreaterThan(0.92);
    expect(inside / all).toBeLessThan(0.98);
  }, 120_000);

  it('does not average the shared error out: at the bottom it is all that matters', () => {
    const { pieces, profile } = made(exact);
    const bottom = waterEquivalentScale(pieces, profile).waterAt(49);
    expect(bottom.sharedSd / bottom.value).toBeCloseTo(0.004, 5);
    expect(bottom.randomSd).toBeLessThan(0.5 * bottom.sharedSd);
  });

  it('begins where a pit ends', () => {
    const { pieces, profile } = made(exact);
    const below = pieces.filter(({ top }) => top > 5);
    const start = { depth: below[0].top, waterEquivalent: 2.5, sd: 0.02 };
    const scale = waterEquivalentScale(below, profile, start);
    expect(scale.waterAt(start.depth)).toEqual({ value: 2.5, randomSd: 0.02, sharedSd: 0 });
    expect(scale.waterAt(30).value).toBeCloseTo(2.5 + waterOf(start.depth, 30), 2);
    expect(scale.waterAt(30).randomSd).toBeGreaterThan(0.02);
  });

  it('lets depths overlap by rounding, and refuses more, with the two pieces', () => {
    const { pieces, profile } = made(exact);
    const moved = (by: number) =>
      pieces.map((piece) => (piece.id === '7' ? { ...piece, top: piece.top - 0.05 - by } : piece));
    expect(() => waterEquivalentScale(moved(0.01), profile)).not.toThrow();
    expect(() => waterEquivalentScale(moved(0.05), profile)).toThrow(
      /piece 7: its top at 5\.9.* m lies 0\.050 m above the bottom of piece 6/,
    );
    expect(() => waterEquivalentScale(pieces, profile).waterAt(60)).toThrow(
      /60 m is outside the core; allowed: 0 to 49/,
    );
    expect(() => waterEquivalentScale([], profile)).toThrow(/no pieces/);
  });
});

// Dronning Maud Land, presumably Graf et al. 2002; repository of Dallmayr et al. (GRL 2025)
const b31 = openTable('b31_b32/B31_Isotope_Age.txt');
describe('core B31', () => {
  it.skipIf(b31 === null)(
    'thickness times density is the published accumulation: 1,520 years within 0.13 %',
    () => {
      let [count, worst] = [0, 0];
      for (const row of b31!) {
        const accumulation = row.number('Acc rate ice [kg/m**2/a]');
        const density = row.number('Density [kg/m**3]');
        const thickness = row.number('Depth bot [m]') - row.number('Depth top [m]');
        if (Number.isNaN(accumulation + density)) continue;
        const miss = Math.abs((1000 * layerWaterEquivalent(thickness, density)) / accumulation - 1);
        count += 1;
        worst = Math.max(worst, miss);
      }
      expect(count).toBe(1520);
      expect((100 * worst).toFixed(2)).toBe('0.13');
    },
  );

  it.skipIf(b31 === null)(
    '1,520 years of published accumulation add up to its w.e. depth within 0.02 %',
    () => {
      const years = b31!.map((row, i) => ({
        id: `${i}`,
        top: row.number('Depth top [m]'),
        bottom: row.number('Depth bot [m]'),
        cutterSet: 'none',
        density: row.number('Density [kg/m**3]'),
        accumulation: row.number('Acc rate ice [kg/m**2/a]'),
      }));
      const known = years.filter(({ density }) => !Number.isNaN(density));
      const profile = densityProfile(known.map((year) => ({ ...year, randomSd: 15, sharedShare: 0 })));
      const scale = waterEquivalentScale(
        known.map(({ density, ...year }) => ({
          ...year,
          measured: {
            waterEquivalent: layerWaterEquivalent(year.bottom - year.top, density),
            area: 0.03,
            length: 0,
            shared: 0,
          },
        })),
        profile,
        { depth: known[0].top, waterEquivalent: 0, sd: 0 },
      );
      const published = known.reduce((sum, { accumulation }) => sum + accumulation, 0) / 1000;
      expect(published).toBeCloseTo(81.0108, 3);
      expect(Math.abs(scale.nodes.at(-1)!.value / published - 1)).toBeLessThan(2e-4);
      expect(scale.weighed).toBeCloseTo(1, 9);
    },
  );
});

// Weissbach et al. 2016, doi:10.5194/cp-12-171-2016: a row's density is that of the stretch down to the next row;
// w.e. depths are printed to 1 cm
describe('cores B19, B22, B23 of the North Greenland Traverse', () => {
  for (const core of ['B19', 'B22', 'B23']) {
    const rows = openTable(`ngt_b19_b22_b23/DepthDensity_lowRes__${core}.tsv`);
    it.skipIf(rows === null)(
      `${core}: w.e. depth from depth and depth from w.e. depth, within the printed figures`,
      () => {
        const stretches = rows!.slice(0, -1).map((row, i) => ({
          id: `${i}`,
          top: row.number('iceDepth'),
          bottom: rows![i + 1].number('iceDepth'),
          cutterSet: 'none',
          density: row.number('density'),
        }));
        const profile = densityProfile(
          stretches.map((piece) => ({ ...piece, randomSd: 25, sharedShare: 0 })),
          5,
        );
        const start = {
          depth: rows![0].number('iceDepth'),
          waterEquivalent: rows![0].number('weDepth'),
          sd: 0.005,
        };
        const scale = waterEquivalentScale(
          stretches.map((piece) => ({
            ...piece,
            measured: {
              waterEquivalent: layerWaterEquivalent(piece.bottom - piece.top, piece.density),
              area: 0.05,
              length: 0,
              shared: 0,
            },
          })),
          profile,
          start,
        );
        for (const row of rows!) {
          const [depth, water] = [row.number('iceDepth'), row.number('weDepth')];
          expect(Math.abs(scale.waterAt(depth).value - water)).toBeLessThan(0.0055);
          expect(Math.abs(scale.depthAt(scale.waterAt(depth).value).value - depth)).toBeLessThan(1e-6);
        }
        // every third stretch not measured: the profile fills it
        const gappy = waterEquivalentScale(
          stretches.map((piece, i) => ({
            ...piece,
            measured:
              i % 3 === 1
                ? null
                : {
                    waterEquivalent: layerWaterEquivalent(piece.bottom - piece.top, piece.density),
                    area: 0.05,
                    length: 0,
                    shared: 0,
                  },
          })),
          profile,
          start,
        );
        const last = rows!.at(-1)!;
        const found = gappy.waterAt(last.number('iceDepth'));
        expect(Math.abs(found.value - last.number('weDepth'))).toBeLessThan(3 * found.randomSd);
        expect(Math.abs(found.value / last.number('weDepth') - 1)).toBeLessThan(0.005);
      },
    );
  }
});
