import { describe, expect, it } from 'vitest';
import { seedsOf, wordOfCommit } from './seeds.ts';

describe('seeds', () => {
  it('of a longer list begin as those of a shorter one', () => {
    expect(seedsOf('abc', 2)).toEqual(seedsOf('abc', 3).slice(0, 2));
  });
  it('differ from word to word and from number to number', () => {
    const seeds = [...seedsOf('one', 500), ...seedsOf('other', 500)];
    expect(new Set(seeds).size).toBe(1000);
  });
  it('come from the commit where there is one, else from a word that is told', () => {
    const { word, source } = wordOfCommit();
    expect(word).toMatch(/^[0-9a-f]{40,64}$|^Ceredin Saddle$/);
    expect(source.length).toBeGreaterThan(10);
  });
});
