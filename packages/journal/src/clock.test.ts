import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FIRST_STAMP, hear, isStamp, readStamp, stampAhead, tick } from './clock.ts';

const NOON = Date.UTC(2031, 0, 14, 12);

describe('tick', () => {
  it('takes the wall clock where it is ahead, else counts on', () => {
    const one = tick(FIRST_STAMP, NOON);
    expect(one).toBe('001926158400000-000000');
    expect(tick(one, NOON)).toBe('001926158400000-000001');
    expect(tick(one, NOON - 5000)).toBe('001926158400000-000001');
    expect(tick(one, NOON + 1)).toBe('001926158400001-000000');
  });

  it('J7: gives later and later stamps whatever the wall clock says', () => {
    const walls = fc.array(fc.oneof(fc.double(), fc.integer(), fc.constantFrom(0, NOON, -1, 1e18)), {
      maxLength: 50,
    });
    fc.assert(
      fc.property(walls, (nows) => {
        let stamp = FIRST_STAMP;
        for (const now of nows) {
          const next = tick(stamp, now);
          expect(isStamp(next)).toBe(true);
          if (stamp < '999999999999999-999999') expect(next > stamp).toBe(true);
          stamp = next;
        }
      }),
    );
  });

  it('a full counter carries into the milliseconds; at the end of the scale it stays', () => {
    expect(tick('000000000000007-999999', 0)).toBe('000000000000008-000000');
    expect(tick('999999999999999-999999', 0)).toBe('999999999999999-999999');
    expect(tick(FIRST_STAMP, 1e30)).toBe('999999999999999-000000');
  });
});

it('hear keeps the later of two stamps', () => {
  expect(hear('000000000000007-000001', '000000000000006-999999')).toBe('000000000000007-000001');
  expect(hear('000000000000007-000001', '000000000000007-000002')).toBe('000000000000007-000002');
});

it('stamps sort as text as they do as time', () => {
  const stamps = fc.tuple(fc.nat(), fc.nat(999_999)).map(([ms, count]) => {
    return `${String(ms).padStart(15, '0')}-${String(count).padStart(6, '0')}`;
  });
  fc.assert(
    fc.property(stamps, stamps, (a, b) => {
      const [left, right] = [readStamp(a), readStamp(b)];
      const byTime = left.milliseconds - right.milliseconds || left.counter - right.counter;
      expect(Math.sign(byTime)).toBe(a < b ? -1 : a > b ? 1 : 0);
    }),
  );
});

it('stampAhead says by how many milliseconds', () => {
  expect(stampAhead('000000000060000-000003', 5_000)).toBe(55_000);
  expect(stampAhead('000000000060000-000003', 65_000)).toBe(-5_000);
});

it.each(['', '1-2', '00000000000000a-000000', '000000000000000-0000000', null, 7])(
  'isStamp(%j) is false',
  (text) => {
    expect(isStamp(text)).toBe(false);
  },
);
