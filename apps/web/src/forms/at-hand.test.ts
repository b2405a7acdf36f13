import { describe, expect, it } from 'vitest';
import { nextName } from './at-hand.ts';

describe('names that are proposed', () => {
  it('count on from the highest number of the same stem', () => {
    expect(nextName('Pit', [])).toBe('Pit 1');
    expect(nextName('Pit', ['Pit 2', 'Pit 10', 'Stake 40'])).toBe('Pit 11');
    expect(nextName('Stake', ['by the tent'])).toBe('Stake 1');
  });
});
