import { describe, expect, it } from 'vitest';
import { seeded } from '../random/index.ts';
import { constantSupply, type Lead210Layers } from './lead-210-constant-supply.ts';

const layers: Lead210Layers = {
  boundaries: [0, 2, 4, 6, 8, 10],
  concentrations: [80, 60, 42, 30, 20],
  sds: [4, 3.5, 3, 2.5, 2],
  tail: 36_000,
  tailSd: 4_000,
};

describe('210Pb of constant rate of supply', () => {
  // recomputed, T½ 22.20 a
  it('gives ages 0, 12.35193, 26.29423, 41.69874, 60.33642, 84.26808 a at the boundaries of five layers', () => {
    const { ages, inventories, supply } = constantSupply(layers, 22.2);
    [0, 12.35193, 26.29423, 41.69874, 60.33642, 84.26808].forEach((age, i) => {
      expect(ages[i]).toBeCloseTo(age, 5);
    });
    expect(inventories[0]).toBe(36_000 + 2000 * (80 + 60 + 42 + 30 + 20));
    expect(supply).toBeCloseTo((Math.LN2 / 22.2) * 500_000, 6);
  });

  it('finds the ages of a core whose snowfall changed, and its rates', () => {
    // 210Pb falls evenly; snow falls at 0.5, then at 0.3 m w.e. a year (looking back)
    const [t, supply] = [22.2, 15_000];
    const lambda = Math.LN2 / t;
    const rate = (age: number) => (age < 30 ? 0.5 : 0.3);
    const ages = Array.from({ length: 31 }, (_, i) => 3 * i);
    const boundaries = ages.map((age) => (age <= 30 ? 0.5 * age : 15 + 0.3 * (age - 30)));
    const between = (from: number, to: number) =>
      (supply / lambda) * (Math.exp(-lambda * from) - Math.exp(-lambda * to));
    const concentrations = ages
      .slice(1)
      .map((to, i) => between(ages[i], to) / (1000 * (boundaries[i + 1] - boundaries[i])));
    const found = constantSupply(
      {
        boundaries,
        concentrations,
        sds: concentrations.map(() => 0),
        tail: between(90, 1e5),
        tailSd: 0,
      },
      t,
    );
    ages.forEach((age, i) => {
      expect(found.ages[i]).toBeCloseTo(age, 9);
    });
    found.rates.forEach((r, i) => {
      // at the middle of a layer of three years, to the order of (lambda dt)^2/12
      expect(Math.abs(r / rate(ages[i] + 1.5) - 1)).toBeLessThan(1e-3);
    });
    expect(found.supply).toBeCloseTo(supply, 6);
  });

  it('states errors as 40,000 draws of concentrations, tail and half-life show them', () => {
    const random = seeded(1978);
    const [t, tSd] = [22.2, 0.22];
    const stated = constantSupply(layers, t, tSd);
    const n = 40_000;
    const sums = (length: number) => ({ mean: new Float64Array(length), square: new Float64Array(length) });
    const [ages, rates] = [sums(6), sums(5)];
    for (let draw = 1; draw <= n; draw++) {
      const drawn = constantSupply(
        {
          ...layers,
          concentrations: layers.concentrations.map((c, i) => c + layers.sds[i] * random.normal()),
          tail: Math.max(1, layers.tail + layers.tailSd * random.normal()),
        },
        t + tSd * random.normal(),
      );
      for (const [into, values] of [
        [ages, drawn.ages],
        [rates, drawn.rates],
      ] as const)
        values.forEach((x, i) => {
          const d = x - into.mean[i];
          into.mean[i] += d / draw;
          into.square[i] += d * (x - into.mean[i]);
        });
    }
    const sdOf = ({ square }: { square: Float64Array }, i: number) => Math.sqrt(square[i] / (n - 1));
    expect(stated.ageSds[0]).toBe(0);
    for (let i = 1; i <= 5; i++) expect(Math.abs(stated.ageSds[i] / sdOf(ages, i) - 1)).toBeLessThan(0.03);
    for (let i = 0; i < 5; i++) expect(Math.abs(stated.rateSds[i] / sdOf(rates, i) - 1)).toBeLessThan(0.03);
  });

  it('grows older downwards, and less certain', () => {
    const { ages, ageSds } = constantSupply(layers, 22.2, 0.22);
    for (let i = 1; i < ages.length; i++) {
      expect(ages[i]).toBeGreaterThan(ages[i - 1]);
      expect(ageSds[i]).toBeGreaterThan(ageSds[i - 1]);
    }
  });

  it('refuses layers that are none, by layer', () => {
    const supply = (change: Partial<Lead210Layers>) => () => constantSupply({ ...layers, ...change }, 22.2);
    expect(supply({ boundaries: [1, 2, 4, 6, 8, 10] })).toThrow(/first boundary is at 1 m w.e.; allowed: 0/);
    expect(supply({ boundaries: [0, 2, 2, 6, 8, 10] })).toThrow(/layer 2: it is from 2 to 2 m w.e./);
    expect(supply({ boundaries: [0, 2] })).toThrow(/2 boundaries, 5 concentrations/);
    expect(supply({ concentrations: [80, 60, -42, 30, 20] })).toThrow(/layer 3: its concentration is -42/);
    expect(supply({ concentrations: [80, 60, Number.NaN, 30, 20] })).toThrow(/layer 3/);
    expect(supply({ sds: [4, 3.5, 3, 2.5, -2] })).toThrow(/layer 5: standard deviation is -2/);
    expect(supply({ tail: 0 })).toThrow(/the tail below the core is 0/);
    expect(supply({ tailSd: Number.NaN })).toThrow(/standard deviation of the tail is NaN/);
  });
});
