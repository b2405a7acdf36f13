import { expect, it } from 'vitest';
import { seededRandom } from './random.ts';

it('the same seed gives the same numbers, the next seed others', () => {
  const draw = (seed: number) => Array.from({ length: 20 }, seededRandom(seed).next);
  expect(draw(7)).toEqual(draw(7));
  expect(new Set([...draw(7), ...draw(8), ...draw(0)]).size).toBe(60);
});

it('the first draws of neighbouring seeds are spread evenly (chi-square over 10 classes, 0.1 % point 27.88)', () => {
  const counts = Array(10).fill(0);
  for (let seed = 0; seed < 10_000; seed += 1) counts[seededRandom(seed).below(10)] += 1;
  const chiSquare = counts.reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
  expect(chiSquare).toBeLessThan(27.88);
});

it('pick of nothing throws', () => {
  expect(() => seededRandom(1).pick([])).toThrow(RangeError);
});
