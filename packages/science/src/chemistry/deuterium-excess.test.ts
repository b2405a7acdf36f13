import { describe, expect, it } from 'vitest';
import { deuteriumExcess, deuteriumExcessAll } from './deuterium-excess.ts';
import { covarianceOf, firstOrderSd } from './first-order.suite.ts';
import { logarithmicDeuteriumExcess } from './logarithmic-deuterium-excess.ts';

describe('deuterium excess', () => {
  it('of -258.2 and -33.5 permil is 9.8 (Dansgaard 1964: 2H less 8 times 18O)', () => {
    expect(deuteriumExcess({ value: -258.2, sd: 0 }, { value: -33.5, sd: 0 }).value).toBeCloseTo(9.8, 10);
  });

  it('0.5 and 0.1 permil make 0.943, and 0.566 where both err together by 0.036', () => {
    const [hydrogen, oxygen] = [
      { value: -258.2, sd: 0.5 },
      { value: -33.5, sd: 0.1 },
    ];
    expect(deuteriumExcess(hydrogen, oxygen).sd).toBeCloseTo(Math.sqrt(0.25 + 0.64), 12);
    expect(deuteriumExcess(hydrogen, oxygen, 0.036).sd).toBeCloseTo(Math.sqrt(0.25 + 0.64 - 16 * 0.036), 12);
  });

  it('of a series fills what it is given', () => {
    const out = new Float64Array(2);
    deuteriumExcessAll(Float64Array.of(-258.2, -100), Float64Array.of(-33.5, -14), out);
    expect([...out].map((d) => Math.round(d * 1e9) / 1e9)).toEqual([9.8, 12]);
  });

  it('refuses less than nothing and covariances that cannot be', () => {
    expect(() => deuteriumExcess({ value: -1001, sd: 0 }, { value: 0, sd: 0 })).toThrow(/delta 2H is -1001/);
    expect(() => deuteriumExcess({ value: 0, sd: 1 }, { value: 0, sd: 0.1 }, 0.2)).toThrow(
      /covariance is 0.2/,
    );
  });
});

describe('logarithmic deuterium excess', () => {
  // h = 1000 ln 0.61 = -494.296322, o = 1000 ln 0.95 = -51.293294: h - 8.47 o + 0.0285 o^2, by hand with 9 digits
  it('of -390 and -50 permil is 15.141', () => {
    const [h, o] = [-494.296322, -51.293294];
    const { value } = logarithmicDeuteriumExcess({ value: -390, sd: 0 }, { value: -50, sd: 0 });
    expect(value).toBeCloseTo(h - 8.47 * o + 0.0285 * o * o, 4);
    expect(value).toBeCloseTo(15.141, 2);
  });

  it('near the ocean it is nearly the other one, and carries its errors', () => {
    const [hydrogen, oxygen] = [
      { value: -3, sd: 0.5 },
      { value: -0.5, sd: 0.1 },
    ];
    const found = logarithmicDeuteriumExcess(hydrogen, oxygen, 0.03);
    expect(found.value).toBeCloseTo(deuteriumExcess(hydrogen, oxygen).value, 0);
    const f = (h = 0, o = 0) => logarithmicDeuteriumExcess({ value: h, sd: 0 }, { value: o, sd: 0 }).value;
    expect(found.sd).toBeCloseTo(firstOrderSd(f, [-3, -0.5], covarianceOf([0.5, 0.1], [[0, 1, 0.03]])), 6);
  });
});
