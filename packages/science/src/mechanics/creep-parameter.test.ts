import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inKelvin } from '../units.ts';
import { creepParameter, creepParameterAll, creepVariants } from './creep-parameter.ts';

const [table, equation, budd] = creepVariants;
const near = (value: number, expected: number, relative = 1e-5) =>
  expect(Math.abs(value / expected - 1)).toBeLessThan(relative);

// Cuffey & Paterson 2010, Table 3.4, as three public files quote it: degrees C, 1/(s Pa3)
const printed = [
  [0, 2.4e-24],
  [-2, 1.7e-24],
  [-5, 9.3e-25],
  [-10, 3.5e-25],
  [-15, 2.1e-25],
  [-20, 1.2e-25],
  [-25, 6.8e-26],
  [-30, 3.7e-26],
  [-35, 2.0e-26],
  [-40, 1.0e-26],
  [-45, 5.2e-27],
  [-50, 2.6e-27],
] as const;
// eq. 3.35 of the same at t + 273 K, recomputed in Python: degrees C, 1/(s Pa3)
const byEquation = [
  [-5, 9.337e-25],
  [-20, 1.183143e-25],
  [-28, 4.66152e-26],
  [-35, 1.960081e-26],
] as const;

describe('creep parameter', () => {
  it('by the table is what is printed at its rows', () => {
    for (const [celsius, value] of printed) near(creepParameter(inKelvin(celsius), table), value, 1e-12);
  });

  it('by the table goes straight in ln A between two rows: the middle is their geometric mean', () => {
    near(creepParameter(inKelvin(-12.5)), Math.sqrt(3.5e-25 * 2.1e-25), 1e-12);
    near(creepParameter(inKelvin(-1)), Math.sqrt(2.4e-24 * 1.7e-24), 1e-12);
  });

  it('by the equation is what an independent computation gives', () => {
    for (const [celsius, value] of byEquation) near(creepParameter(inKelvin(celsius), equation), value);
  });

  it('by the equation agrees with the table of the same book within 2.8 %', () => {
    for (const [celsius, value] of printed) near(creepParameter(inKelvin(celsius), equation), value, 0.028);
  });

  it('by Paterson & Budd 1982 is what its two lines give, and has no step wider than 0.2 % at 263.15 K', () => {
    // A0 exp(-Q/RT) with R = 8.314462618, recomputed in Python: -20 degrees C cold, -4 degrees C warm
    near(creepParameter(inKelvin(-20), budd), 1.504622e-25);
    near(creepParameter(inKelvin(-4), budd), 1.830128e-24);
    near(creepParameter(263.15 + 1e-9, budd), creepParameter(263.15 - 1e-9, budd), 2e-3);
  });

  it('counts temperature from the pressure melting point in the two equations', () => {
    // 10 MPa lower it by 0.7 K; the base temperature of Cuffey & Paterson goes with it, Paterson & Budd's does not
    near(creepParameter(260.15, budd, 1e7), creepParameter(260.85, budd, 0), 1e-12);
    const shifted = (t: number, base: number) => 3.5e-25 * Math.exp((-60000 / 8.314) * (1 / t - 1 / base));
    near(creepParameter(253.15, equation, 1e7), shifted(253.7, 263.7), 1e-12);
    expect(creepParameter(253.15, table, 1e7)).toBe(creepParameter(253.15, table, 0));
  });

  it('of every variant grows with temperature', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...creepVariants),
        fc.double({ min: 223.15, max: 273, noNaN: true }),
        fc.double({ min: 0.01, max: 20, noNaN: true }),
        (variant, temperature, more) => {
          const warmer = Math.min(273.15, temperature + more);
          expect(creepParameter(warmer, variant)).toBeGreaterThan(creepParameter(temperature, variant));
        },
      ),
    );
  });

  it('lies apart between the variants by up to 30 % below -10 degrees C, by a factor of 1.9 at 0', () => {
    const ratio = (celsius: number) =>
      creepParameter(inKelvin(celsius), budd) / creepParameter(inKelvin(celsius));
    for (const celsius of [-50, -42, -33, -21, -11]) {
      expect(ratio(celsius)).toBeGreaterThan(1.24);
      expect(ratio(celsius)).toBeLessThan(1.31);
    }
    expect(ratio(0)).toBeCloseTo(1.89, 2);
  });

  it('for many depths is the same as one by one', () => {
    const [temperatures, pressures] = [
      [241.3, 256.2, 262.9],
      [3e6, 2e6, 1e6],
    ];
    for (const variant of creepVariants)
      expect([...creepParameterAll(temperatures, variant, pressures, new Float64Array(3))]).toEqual(
        temperatures.map((one, i) => creepParameter(one, variant, pressures[i])),
      );
    expect(() => creepParameterAll([250], table, [1e5, 2e5], new Float64Array(2))).toThrow(
      /1 temperatures, 2 pressures/,
    );
  });

  it('refuses degrees for kelvins, ice above melting, a pressure that is not a number', () => {
    expect(() => creepParameter(-20)).toThrow(/temperature is -20 K; allowed: 223 to 273.15 K/);
    expect(() => creepParameter(274, budd)).toThrow(/creep parameter of ice: temperature is 274 K/);
    expect(() => creepParameter(260, equation, Number.NaN)).toThrow(/pressure is NaN Pa/);
  });
});
