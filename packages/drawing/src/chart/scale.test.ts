import { describe, expect, it } from 'vitest';
import { chartScale } from './scale.ts';

describe('chartScale', () => {
  it('puts values between the ends of an axis, also of one that runs down', () => {
    const place = chartScale({ label: 'depth', unit: 'm', from: 80, to: 0 });
    expect([60, 0, 100].map(place)).toEqual([0.25, 1, -0.25]);
    expect(place(80)).toBeCloseTo(0, 12);
  });

  it('on a logarithmic axis equal factors are equally far apart', () => {
    const place = chartScale({ label: 'rate', unit: '1/a', from: 1e-4, to: 1e2, log: true });
    expect(place(1e-2)).toBeCloseTo(1 / 3, 12);
    expect(place(10)).toBeCloseTo(5 / 6, 12);
    expect(place(0)).toBeNaN();
  });

  it.each([
    [{ from: 3, to: 3 }, 'runs from 3 to 3'],
    [{ from: Number.NaN, to: 3 }, 'finite'],
    [{ from: 0, to: 3, log: true as const }, 'must be above 0'],
  ])('refuses %o', (ends, why) => {
    expect(() => chartScale({ label: 'depth', unit: 'm', ...ends })).toThrow(why);
  });
});
