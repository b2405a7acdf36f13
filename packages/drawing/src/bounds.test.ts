import { describe, expect, it } from 'vitest';
import { boundsOf, shapesWithin } from './bounds.ts';
import { oneOfEach, pictureOf } from './kinds.suite.ts';

describe('boundsOf', () => {
  it('holds points and half the stroke', () => {
    expect(boundsOf(oneOfEach.line)).toEqual({ x0: 0.85, y0: 1.85, x1: 4.15, y1: 5.15 });
    expect(boundsOf(oneOfEach.circle)).toEqual({ x0: 37.75, y0: 38.75, x1: 42.25, y1: 43.25 });
    expect(boundsOf(oneOfEach.rect)).toEqual({ x0: 10, y0: 11, x1: 22, y1: 24 });
    expect(boundsOf(oneOfEach.dots)).toEqual({ x0: 49.5, y0: 50.5, x1: 52.5, y1: 53.5 });
  });

  it('of text ends at its anchor', () => {
    const { x0, x1 } = boundsOf(oneOfEach.text);
    expect(x1).toBeCloseTo(60, 9);
    expect(x0).toBeLessThan(45);
  });
});

describe('shapesWithin', () => {
  it('gives the shapes that touch the box, in their order', () => {
    const picture = pictureOf(Object.values(oneOfEach));
    const found = shapesWithin(picture, { x0: 0, y0: 0, x1: 22, y1: 12 });
    expect(found.map((shape) => shape.is)).toEqual(['line', 'rect']);
  });
});
