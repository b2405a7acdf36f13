import { describe, expect, it } from 'vitest';
import { hit } from './hit.ts';
import { oneOfEach, pictureOf } from './kinds.suite.ts';
import type { Shape } from './shape.ts';

describe('hit', () => {
  const picture = pictureOf(Object.values(oneOfEach));

  it('inside a shape answers its thing', () => {
    expect(hit(picture, 15, 20)).toBe('a rect');
    expect(hit(picture, 2.6, 3, 0.1)).toBe('a line');
  });

  it('in the box of a triangle but outside the triangle misses it without slack', () => {
    expect(hit(picture, 1.2, 4.8, 0.1)).toBeNull();
  });

  it('near shapes answers the nearest within reach, and null beyond it', () => {
    expect(hit(picture, 30, 30, 7.5)).toBeNull();
    expect(hit(picture, 25, 30, 7.5)).toBe('a rect');
    expect(hit(picture, 36.2, 41, 2)).toBe('a circle');
  });

  it('where shapes lie over each other answers the uppermost', () => {
    const over: Shape = { ...oneOfEach.rect, thing: 'over it' };
    expect(hit(pictureOf([oneOfEach.rect, over]), 15, 15)).toBe('over it');
  });

  it('goes through shapes that show no thing', () => {
    const { thing: _, ...bare } = oneOfEach.rect;
    expect(hit(pictureOf([oneOfEach.rect, bare]), 15, 15)).toBe('a rect');
  });
});
