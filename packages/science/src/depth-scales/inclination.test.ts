import { describe, expect, it } from 'vitest';
import { checkStations } from './inclination.ts';

describe('checkStations', () => {
  const station = { depth: 10, inclination: 2, azimuth: 40, inclinationSd: 0.2, azimuthSd: 3 };
  it.each([
    ['none', [], /no inclination station/],
    [
      'an angle that is not a number',
      [{ ...station, inclination: Number.NaN }],
      /station 1 at 10 m.*not a number/,
    ],
    ['a hole that is not going down', [{ ...station, inclination: 95 }], /below 90 degrees/],
    ['a negative standard deviation', [{ ...station, inclinationSd: -1 }], /not negative/],
    ['depths out of order', [station, { ...station, depth: 9 }], /station 2 at 9 m is not below/],
  ])('refuses %s and says what to do', (_, stations, words) => {
    expect(() => checkStations(stations)).toThrow(words);
  });
});
