import { describe, expect, it } from 'vitest';
import { iceDensityAll } from './density-all.ts';
import { iceDensity } from './properties.ts';

describe('densities of many temperatures at once', () => {
  it('are those of one at a time, at any pressure, to the last digits', () => {
    const temperatures = Float64Array.from({ length: 200 }, (_, i) => 20 + i * 1.27);
    const out = new Float64Array(temperatures.length);
    for (const pressure of [611.657, 101_325, 35e6]) {
      iceDensityAll(temperatures, out, pressure);
      temperatures.forEach((temperature, i) => {
        expect(Math.abs(out[i] / iceDensity(temperature, pressure) - 1)).toBeLessThan(1e-14);
      });
    }
  });

  it('give the printed ones: 919.5652 at -20, 922.2192 kg/m3 at -40 degrees C (gsw 3.6.16)', () => {
    const out = new Float64Array(2);
    iceDensityAll(Float64Array.of(253.15, 233.15), out);
    expect(Math.abs(out[0] - 919.5652)).toBeLessThan(1e-4);
    expect(Math.abs(out[1] - 922.2192)).toBeLessThan(1e-4);
  });

  it('refuse the first temperature out of range, and a number that is none', () => {
    expect(() => iceDensityAll(Float64Array.of(250, 280), new Float64Array(2))).toThrow(/280 K/);
    expect(() => iceDensityAll(Float64Array.of(Number.NaN), new Float64Array(1))).toThrow(/NaN/);
  });
});
