import { describe, expect, it } from 'vitest';
import { type Guesses, guessesNow, oneMoreGuess, waitLeft } from './guesses.ts';

const start = Date.parse('2031-01-17T09:40:00Z');
const minute = 60_000;
const hour = 60 * minute;

/** Times, in ms from the start, at which somebody who never stops trying is let through until `end`. */
function persistent(end: number): readonly number[] {
  const taken: number[] = [];
  let guesses: Guesses | null = null;
  for (let now = start; now < start + end; now += 1000) {
    if (waitLeft(guesses, now) > 0) continue;
    guesses = oneMoreGuess(guesses, now);
    taken.push(now - start);
  }
  return taken;
}

describe('Wrong PINs', () => {
  it('three are free; then a minute, two, four, up to an hour', () => {
    const taken = persistent(6 * hour);
    const waits = taken.slice(1).map((at, index) => (at - taken[index]!) / minute);
    expect(waits.slice(2, 9)).toEqual([1, 2, 4, 8, 16, 32, 60]);
    expect(Math.max(...waits)).toBe(60);
  });

  it('no minute sees more than three, and a day fewer than 40', () => {
    const taken = persistent(24 * hour);
    for (const at of taken)
      expect(taken.filter((one) => one >= at && one < at + minute).length).toBeLessThanOrEqual(3);
    expect(taken.length).toBeLessThan(40);
  });

  it('a day without one forgets them', () => {
    const guesses = { wrong: 9, last: start };
    expect(waitLeft(guesses, start + hour - 1)).toBe(1);
    expect(oneMoreGuess(guesses, start + 23 * hour).wrong).toBe(10);
    expect(guessesNow(guesses, start + 24 * hour)).toBeNull();
    expect(oneMoreGuess(guesses, start + 24 * hour)).toEqual({ wrong: 1, last: start + 24 * hour });
  });

  it('a clock set back by years shortens no wait and grows none beyond an hour', () => {
    const back = start - 400 * 24 * hour;
    const seen = guessesNow({ wrong: 20, last: start }, back);
    expect(waitLeft(seen, back)).toBe(hour);
    expect(waitLeft(seen, back + hour)).toBe(0);
  });
});
