import { describe, expect, it } from 'vitest';
import { evaluate, relationNamed } from '../relations/index.ts';

const results = (name: string, words: Readonly<Record<string, string>>) =>
  evaluate(
    relationNamed(name)!,
    Object.fromEntries(Object.entries(words).map(([key, text]) => [key, { kind: 'words', text }])),
  ).results;

describe('relations of identifiers', () => {
  it('container-number completes ten characters, holds eleven to their check digit, and names the kind', () => {
    // published example of ISO 6346
    const found = results('container-number', { code: 'CSQU305438' });
    expect([found.full.value, found.remainder.value, found.remark.value]).toEqual([
      'CSQU3054383',
      3,
      'as usual',
    ]);
    expect(found.category.value).toBe('freight container');
    expect(() => results('container-number', { code: 'CSQU3054384' })).toThrow(/allowed: 3/);
    expect(() => results('container-number', { code: 'CSQU30543833' })).toThrow(/no container’s number/);
    expect(results('container-number', { code: 'CSQU200009' }).remark.value).toMatch(/advises against/);
  });

  it('check-characters completes a string, and says where it is complete', () => {
    expect(results('check-characters', { text: '0794' })).toMatchObject({
      check: { value: '5' },
      full: { value: '07945' },
      ends: { value: 'no' },
    });
    expect(results('check-characters', { text: '07945' }).ends.value).toBe('yes');
    expect(results('check-characters', { text: '079', system: 'MOD 11-2' }).full.value).toBe('079X');
    expect(results('check-characters', { text: '079X', system: 'MOD 11-2' })).toMatchObject({
      check: { value: null },
      full: { value: '079X' },
      ends: { value: 'yes' },
    });
  });
});
