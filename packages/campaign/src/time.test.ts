import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readTime } from './time.ts';

describe('readTime', () => {
  // RFC 3339, section 5.8, gives the first, second and last (without its leap second) as examples.
  it.each([
    ['1985-04-12T23:20:50.52Z', '1985-04-12T23:20:50.52Z'],
    ['1996-12-19T16:39:57-08:00', '1996-12-19T16:39:57-08:00'],
    ['1937-01-01T12:00:27.87+00:20', '1937-01-01T12:00:27.87+00:20'],
    ['2026-06-14 09:30+05:45', '2026-06-14T09:30+05:45'],
    ['2026-06-14t09:30z', '2026-06-14T09:30Z'],
    ['2024-02-29T00:00:00Z', '2024-02-29T00:00:00Z'],
  ])('"%s" is kept as %s', (text, kept) => expect(readTime(text)).toBe(kept));

  it.each([
    '2026-06-14T09:30:00',
    '2026-06-14',
    '09:30',
    '14.06.2026 09:30+02:00',
    '2026-02-29T00:00:00Z',
    '1900-02-29T00:00:00Z',
    '2026-04-31T00:00:00Z',
    '2026-13-01T00:00:00Z',
    '2026-00-10T00:00:00Z',
    '2026-06-14T24:00:00Z',
    '2026-06-14T09:60:00Z',
    '2026-06-14T09:30:60Z',
    '2026-06-14T09:30:00+24:00',
    '2026-06-14T09:30:00+0545',
  ])('"%s" is no moment that can be told again', (text) => expect(readTime(text)).toBeNull());

  // ECMA-262: Date.prototype.toISOString is the reference for which days there are.
  it('takes every moment that the calendar has', () => {
    const date = fc.date({
      min: new Date('0000-01-01T00:00:00Z'),
      max: new Date('9999-12-31T23:59:59Z'),
      noInvalidDate: true,
    });
    fc.assert(
      fc.property(date, (moment) => {
        const text = moment.toISOString();
        expect(readTime(text)).toBe(text);
      }),
      { numRuns: 500, seed: 5 },
    );
  });
});
