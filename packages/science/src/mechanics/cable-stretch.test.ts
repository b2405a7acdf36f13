import { describe, expect, it } from 'vitest';
import { depthByCounter, elasticStretch, thermalStretch } from './cable-stretch.ts';

const g = 9.80665;

describe('stretch of the cable', () => {
  it('by load and own weight is what an independent computation gives', () => {
    // recomputed in Python: length m, EA N, kg/m, kg hung, mm
    for (const [length, stiffness, mass, load, millimetres] of [
      [100, 4e5, 0.115, 60, 161.196809],
      [200, 4e5, 0.115, 60, 350.587738],
      [150, 1.2e6, 0.2, 100, 140.970594],
    ])
      expect(1000 * elasticStretch({ length, stiffness, weight: mass * g, load: load * g })).toBeCloseTo(
        millimetres,
        5,
      );
  });

  it('is the sum of what a thousand short ends stretch, each by all that hangs below it', () => {
    const [length, load, weight, stiffness] = [180, 700, 1.9, 5.5e5];
    let sum = 0;
    for (let i = 0; i < 1000; i++) {
      const below = length * (1 - (i + 0.5) / 1000);
      sum += ((load + weight * below) * (length / 1000)) / stiffness;
    }
    expect(elasticStretch({ length, load, weight, stiffness })).toBeCloseTo(sum, 9);
  });

  it('by temperature is -45 mm for 150 m of steel that is 25 K colder, -36 mm between -5 and -15 °C after +10', () => {
    expect(1000 * thermalStretch(150, 1.2e-5, 248.15, 273.15)).toBeCloseTo(-45, 9);
    expect(1000 * thermalStretch(150, 1.2e-5, 263.15, 283.15)).toBeCloseTo(-36, 9);
  });

  it('makes the drill deeper than the counter says, slack less deep', () => {
    expect(depthByCounter(100, 0.161, 0.05)).toBeCloseTo(100.111, 12);
  });

  it('refuses a stiffness in kilonewtons, degrees for kelvins, a counter below 0', () => {
    expect(() => elasticStretch({ length: 100, load: 588, weight: 1.1, stiffness: 400 })).toThrow(
      /stiffness EA is 400 N/,
    );
    expect(() => thermalStretch(150, 1.2e-5, -10, 283)).toThrow(/temperature of the cable is -10 K/);
    expect(() => depthByCounter(-1, 0, 0)).toThrow(/counter is -1 m/);
    expect(() => depthByCounter(10, Number.NaN, 0)).toThrow(/stretch is NaN m/);
  });
});
