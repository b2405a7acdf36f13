import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { closureRate, closureRateAll, diameterAfter, timeToLose } from './hole-closure.ts';
import { overburden } from './overburden.ts';

const day = 86_400;
const near = (value: number, expected: number, relative = 1e-5) =>
  expect(Math.abs(value / expected - 1)).toBeLessThan(relative);

// Nye 1953 with A of Cuffey & Paterson 2010, Table 3.4, dry hole, 900 kg/m3, 9.81 m/s2, 126 mm; recomputed in Python:
// A, depth m, excess Pa, rate 1/s, diameter after 10 d mm, days to lose 2 mm
const cases = [
  [9.3e-25, 100, 882_900, 2.370575e-8, 123.44555, 7.812],
  [3.5e-25, 100, 882_900, 8.92152e-9, 125.0325, 20.7576],
  [3.5e-25, 150, 1_324_350, 3.011013e-8, 122.76436, 6.1504],
  [3.5e-25, 200, 1_765_800, 7.137216e-8, 118.46486, 2.5947],
  [1.2e-25, 150, 1_324_350, 1.032347e-8, 124.88114, 17.9386],
  [1.2e-25, 200, 1_765_800, 2.447045e-8, 123.36401, 7.5679],
  [3.7e-26, 300, 2_648_700, 2.546457e-8, 123.2581, 7.2724],
] as const;

describe('hole closure', () => {
  it('gives rate, diameter after ten days and days to lose 2 mm of seven recomputed cases', () => {
    for (const [parameter, depth, excess, rate, diameter, days] of cases) {
      const pressure = overburden(900, depth, 9.81);
      near(pressure, excess, 1e-12);
      const found = closureRate(parameter, pressure);
      near(found, rate, 1e-6);
      near(1000 * diameterAfter(0.126, found, 10 * day), diameter, 1e-7);
      near(timeToLose(0.126, 0.002, found)! / day, days, 1e-5);
    }
  });

  it('is 8 times as fast at twice the depth', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-27, max: 1e-23, noNaN: true }),
        fc.double({ min: 5, max: 400, noNaN: true }),
        fc.double({ min: 400, max: 917, noNaN: true }),
        (parameter, depth, density) => {
          const rate = (at: number) => closureRate(parameter, overburden(density, at, 9.8));
          near(rate(2 * depth), 8 * rate(depth), 1e-12);
        },
      ),
    );
  });

  it('takes as long to lose a diameter as the diameter then says', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-10, max: 1e-6, noNaN: true }),
        fc.double({ min: 0.0001, max: 0.1, noNaN: true }),
        (rate, loss) => {
          near(diameterAfter(0.131, rate, timeToLose(0.131, loss, rate)!), 0.131 - loss, 1e-12);
        },
      ),
    );
  });

  it('is the solution of its own differential equation, stepped through by Runge and Kutta', () => {
    const rate = closureRate(2.1e-25, 1.7e6);
    let diameter = 0.118;
    const [steps, end] = [200, 40 * day];
    for (let i = 0; i < steps; i++) {
      const h = end / steps;
      const slope = (d: number) => -rate * d;
      const k1 = slope(diameter);
      const k2 = slope(diameter + (h / 2) * k1);
      const k3 = slope(diameter + (h / 2) * k2);
      const k4 = slope(diameter + h * k3);
      diameter += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
    }
    near(diameterAfter(0.118, rate, end), diameter, 1e-10);
  });

  it('widens a hole whose fluid weighs more than the ice; there is no time to lose then', () => {
    const rate = closureRate(3.5e-25, -2e5);
    expect(rate).toBeLessThan(0);
    expect(diameterAfter(0.126, rate, 30 * day)).toBeGreaterThan(0.126);
    expect(timeToLose(0.126, 0.002, rate)).toBeNull();
    expect(timeToLose(0.126, 0.002, 0)).toBeNull();
  });

  it('for many depths is the same as one by one', () => {
    const [parameters, excesses] = [
      [9.3e-25, 3.5e-25, 1.2e-25],
      [2e5, 7e5, -1e5],
    ];
    const all = closureRateAll(parameters, excesses, new Float64Array(3));
    expect([...all]).toEqual(parameters.map((one, i) => closureRate(one, excesses[i])));
    expect(() => closureRateAll([1e-25], [1e5, 2e5], all)).toThrow(/1 creep parameters, 2 pressures/);
  });

  it('refuses to lose more than there is, no diameter, a time that runs back', () => {
    expect(() => timeToLose(0.126, 0.126, 1e-8)).toThrow(/below the diameter of 0.126 m/);
    expect(() => timeToLose(0.126, Number.NaN, 1e-8)).toThrow(/diameter lost is NaN m/);
    expect(() => diameterAfter(0, 1e-8, day)).toThrow(/diameter is 0 m/);
    expect(() => diameterAfter(0.126, 1e-8, -1)).toThrow(/time is -1 s/);
    expect(() => closureRate(1e-25, Number.POSITIVE_INFINITY)).toThrow(/pressure excess is Infinity Pa/);
  });
});
