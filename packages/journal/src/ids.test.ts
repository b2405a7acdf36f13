import { validate, version } from 'uuid';
import { expect, it } from 'vitest';
import { newId, newSalt } from './ids.ts';
import { seededRandom } from './simulation/random.ts';

it('newId begins with the 48 bits of its time, as in the example of RFC 9562 appendix A.6', () => {
  // That example is 017F22E2-79B0-7CC3-98C4-DC0C0C07398F; its random bits are not ours to choose through the library.
  const id = newId({ now: () => 0x017f22e279b0, randomBytes: seededRandom(3).bytes });
  expect(id.slice(0, 15)).toBe('017f22e2-79b0-7');
  expect(validate(id) && version(id)).toBe(7);
});

it.each([Number.NaN, -5, Number.POSITIVE_INFINITY, 1e300])(
  'newId stays a UUIDv7 when the clock says %s (J7)',
  (now) => {
    const id = newId({ now: () => now, randomBytes: seededRandom(1).bytes });
    expect(validate(id) && version(id)).toBe(7);
  },
);

it('newId and newSalt do not repeat within one millisecond', () => {
  const source = { now: () => 1_900_000_000_000, randomBytes: seededRandom(7).bytes };
  expect(new Set(Array.from({ length: 5000 }, () => newId(source))).size).toBe(5000);
  expect(newSalt(source)).toMatch(/^[0-9a-f]{32}$/);
});
