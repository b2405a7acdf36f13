import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inKelvin } from '../units.ts';
import { meanKineticTemperature } from './mean-kinetic-temperature.ts';

describe('mean kinetic temperature', () => {
  // recomputed with E/R = 10,000 K
  it.each([
    [[20, 20, 20], null, 20],
    [[2, 8], null, 5.536425],
    [[25, 25, 25, 35], null, 28.602206],
    [[20, 22, 25, 27], null, 23.882765],
    [[-25, -25, -25, -10], null, -17.551067],
    [[-20, -5], [167, 1], -19.697399],
  ])('of %j degrees C with durations %j is %d', (celsius, durations, expected) => {
    const found = meanKineticTemperature(celsius.map(inKelvin), durations);
    expect(Math.abs(found - 273.15 - expected)).toBeLessThan(1e-6);
  });

  it('lies between the mean and the warmest', () => {
    const rows = fc.array(
      fc.tuple(fc.double({ min: 200, max: 310, noNaN: true }), fc.double({ min: 0.1, max: 9, noNaN: true })),
      { minLength: 1, maxLength: 30 },
    );
    fc.assert(
      fc.property(rows, (all) => {
        const [temperatures, durations] = [all.map(([t]) => t), all.map(([, w]) => w)];
        const whole = durations.reduce((a, b) => a + b);
        const mean = all.reduce((sum, [t, w]) => sum + t * w, 0) / whole;
        const found = meanKineticTemperature(temperatures, durations);
        expect(found).toBeGreaterThanOrEqual(mean - 1e-9);
        expect(found).toBeLessThanOrEqual(Math.max(...temperatures) + 1e-9);
      }),
    );
  });

  it('refuses nothing at all, lists that do not match, durations that are all 0', () => {
    expect(() => meanKineticTemperature([])).toThrow(/no temperature/);
    expect(() => meanKineticTemperature([250, 260], [1])).toThrow(/1 durations; allowed: as many/);
    expect(() => meanKineticTemperature([250], [0])).toThrow(/all durations are 0/);
    expect(() => meanKineticTemperature([250, Number.NaN])).toThrow(/temperature is NaN K/);
  });
});
