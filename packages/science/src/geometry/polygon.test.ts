import { describe, expect, it } from 'vitest';
import { faceToFace, heldPolygon, isInside, pointToFace } from './polygon.ts';

describe('polygon of a cut', () => {
  it('comes back counterclockwise', () => {
    const square = [
      [0, 0],
      [0, 1],
      [2, 1],
      [2, 0],
    ] as const;
    expect(heldPolygon(square)).toEqual(square.toReversed());
    expect(heldPolygon(square.toReversed())).toEqual(square.toReversed());
  });

  it.each([
    [
      'two corners',
      [
        [0, 0],
        [1, 1],
      ],
      /has 2 corners; allowed: 3 to 1000/,
    ],
    [
      'edges that cross',
      [
        [0, 0],
        [2, 2],
        [2, 0],
        [0, 1],
      ],
      /edges 1 and 3 meet/,
    ],
    [
      'a corner on another edge',
      [
        [0, 0],
        [4, 0],
        [4, 2],
        [2, 0],
        [0, 2],
      ],
      /meet/,
    ],
    [
      'corners on one line',
      [
        [0, 0],
        [1, 1],
        [3, 3],
      ],
      /no area/,
    ],
    [
      'a corner that is not a number',
      [
        [0, 0],
        [1, Number.NaN],
        [3, 0],
      ],
      /y of corner 2 is NaN m/,
    ],
    [
      'millimetres for metres',
      [
        [0, 0],
        [30, 0],
        [30, 20],
      ],
      /x of corner 2 is 30 m/,
    ],
  ] as const)('with %s is refused', (_, polygon, words) => {
    expect(() => heldPolygon(polygon)).toThrow(words);
  });

  it('of a notched shape holds what is inside and not what is in the notch', () => {
    const notched = [
      [0, 0],
      [4, 0],
      [4, 3],
      [2, 1],
      [0, 3],
    ] as const;
    expect(isInside(notched, [0.5, 1.5])).toBe(true);
    expect(isInside(notched, [2, 2])).toBe(false);
    expect(isInside(notched, [5, 1])).toBe(false);
  });
});

describe('distance', () => {
  it('from a point to a face is to its line beside it, to its end beyond it', () => {
    expect(pointToFace([2, 3], [0, 0], [5, 0])).toBe(3);
    expect(pointToFace([9, 3], [0, 0], [5, 0])).toBe(5);
    expect(pointToFace([3, 4], [0, 0], [0, 0])).toBe(5);
  });

  it('between faces is nothing where they cross, else from an end of one to the other', () => {
    expect(faceToFace([0, 0], [4, 0], [2, -1], [2, 7])).toBe(0);
    expect(faceToFace([0, 0], [4, 0], [2, 3], [9, 7])).toBe(3);
  });
});
