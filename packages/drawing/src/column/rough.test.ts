import { describe, expect, it } from 'vitest';
import { lots, roughness } from './rough.ts';

describe('lots', () => {
  it('of one text are the same each time, of another text others', () => {
    const draw = (key: string): readonly number[] => Array.from({ length: 5 }, lots(key));
    expect(draw('piece-1')).toEqual(draw('piece-1'));
    expect(draw('piece-1')).not.toEqual(draw('piece-2'));
  });

  it('fill 0 to 1 evenly: chi-square of 20,000 in 16 bins below the 0.1 % point 37.7 of 15 degrees of freedom', () => {
    const bins = new Array<number>(16).fill(0);
    const lot = lots('Ceredin');
    for (let at = 0; at < 20_000; at += 1) {
      const bin = Math.floor(lot() * 16);
      bins[bin] = bins[bin]! + 1;
    }
    const expected = 20_000 / 16;
    expect(bins.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0)).toBeLessThan(37.7);
  });
});

describe('roughness', () => {
  it('stays within 1 and lies on its mean, so that a rough break keeps its depth', () => {
    const offsets = roughness('piece-1/top', 26);
    expect(Math.max(...offsets.map(Math.abs))).toBeCloseTo(1, 9);
    expect(offsets.reduce((sum, one) => sum + one, 0)).toBeCloseTo(0, 9);
  });
});
