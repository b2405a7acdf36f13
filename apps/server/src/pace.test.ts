import { describe, expect, it } from 'vitest';
import { openPace } from './pace.ts';

/** Asks so many times in a second of an invented clock, each when the one before was let in. */
function ask(times: number, second = { ms: 0 }) {
  const pace = openPace(() => second.ms);
  const waits = Array.from({ length: times }, () => pace.wait('tablet 1'));
  return { pace, waits, refused: waits.filter((wait) => wait === null).length };
}

describe('A6: 120 requests a second of one device', () => {
  it('a start and a day of photographs go through at once', () => {
    expect(ask(240).waits.every((wait) => wait === 0)).toBe(true);
  });

  it('more wait, each a little longer, up to five seconds; beyond that none is let in', () => {
    const { waits, refused } = ask(2000);
    const isGrowing = waits
      .slice(240, 840)
      .every((wait, k) => wait !== null && wait >= (waits[239 + k] ?? 0));
    expect(isGrowing).toBe(true);
    expect(waits[300]).toBe((60 * 1000) / 120);
    expect(refused).toBe(2000 - 841);
    expect(Math.max(...waits.map((wait) => wait ?? 0))).toBeLessThanOrEqual(5000);
  });

  it('a device that asks for a minute without end gets 120 a second', () => {
    const clock = { ms: 1_000_000 };
    const pace = openPace(() => clock.ms);
    let taken = 0;
    for (let ms = 0; ms < 60_000; ms += 1, clock.ms += 1) if (pace.wait('tablet 1') !== null) taken += 1;
    expect(taken).toBeGreaterThanOrEqual(60 * 120);
    expect(taken).toBeLessThanOrEqual(60 * 120 + 240 + 601);
  });

  it('keeps no other device waiting', () => {
    const { pace } = ask(2000);
    expect(pace.wait('tablet 1')).toBe(null);
    expect(pace.wait('tablet 2')).toBe(0);
  });
});
