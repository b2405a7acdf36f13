import { describe, expect, it } from 'vitest';
import { sayDepth, sayLength } from './say.ts';

describe('sayLength', () => {
  it.each([
    [0.875, '87.5 cm'],
    [0.03, '3 cm'],
    [0.0034, '0.3 cm'],
    [1.234, '1.23 m'],
    [-0.05, '-5 cm'],
  ])('of %f m is %s', (metres, said) => expect(sayLength(metres)).toBe(said));
});

describe('sayDepth', () => {
  it('is to the centimetre', () => expect(sayDepth(29.4849)).toBe('29.48 m'));
});
