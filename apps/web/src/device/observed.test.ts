import { expect, it } from 'vitest';
import { observedNow } from './observed.ts';

/** A date as a browser in another place gives it. */
const at = (utc: string, minutesEast: number): Date =>
  Object.assign(new Date(utc), { getTimezoneOffset: () => -minutesEast });

it('J7: observedNow says local time with its offset from UTC (ISO 8601)', () => {
  expect(observedNow(at('2031-06-14T05:57:05Z', 345))).toBe('2031-06-14T11:42:05+05:45');
  expect(observedNow(at('2031-01-01T01:10:00Z', -210))).toBe('2030-12-31T21:40:00-03:30');
  expect(observedNow(at('2031-06-14T05:57:05Z', 0))).toBe('2031-06-14T05:57:05+00:00');
});
