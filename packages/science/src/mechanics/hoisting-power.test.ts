import { expect, it } from 'vitest';
import { hoistingPower } from './hoisting-power.ts';

it('hoisting 150 kg at 0.5 m/s with an efficiency of 0.7 takes 1050.71 W (recomputed in Python)', () => {
  expect(hoistingPower(150, 0.5, 0.7, 9.80665)).toBeCloseTo(1050.713, 3);
});

it('hoisting refuses per cent for an efficiency and a negative mass', () => {
  expect(() => hoistingPower(150, 0.5, 70, 9.81)).toThrow(/efficiency is 70; allowed: 0.01 to 1/);
  expect(() => hoistingPower(-3, 0.5, 0.7, 9.81)).toThrow(/mass is -3 kg/);
});
