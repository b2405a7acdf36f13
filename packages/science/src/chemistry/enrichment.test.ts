import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crustRatio } from './crust-content.ts';
import { enrichmentFactor } from './enrichment.ts';
import { covarianceOf, firstOrderSd } from './first-order.suite.ts';
import { seaSaltRatio } from './sea-salt-ratio.ts';

const exact = (value: number) => ({ value, sd: 0 });

describe('enrichment factor', () => {
  it('of 25 ng/kg lead with 1200 of aluminium against crust is 99.884; of Mg 6 with Na 40 against sea salt 1.25979', () => {
    expect(enrichmentFactor(exact(25), exact(1200), exact(crustRatio('Pb'))).value).toBeCloseTo(99.88427, 3);
    expect(enrichmentFactor(exact(6), exact(40), seaSaltRatio('Mg')).value).toBeCloseTo(1.25979, 5);
  });

  it('carries errors of both contents, their covariance, and the ratio', () => {
    const found = enrichmentFactor({ value: 25, sd: 3 }, { value: 12, sd: 1.5 }, { value: 2, sd: 0.4 }, -2);
    const covariance = covarianceOf([3, 1.5, 0.4], [[0, 1, -2]]);
    expect(found.sd).toBeCloseTo(
      firstOrderSd((x, al, k) => x! / al! / k!, [25, 12, 2], covariance),
      8,
    );
  });

  it('of the source itself is 1, whatever the amount of dust', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('Fe', 'Pb', 'La'),
        fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
        (x, al) => {
          const found = enrichmentFactor(exact(al * crustRatio(x)), exact(al), exact(crustRatio(x)));
          expect(found.value).toBeCloseTo(1, 12);
        },
      ),
    );
  });

  it('refuses a reference element that was not found', () => {
    expect(() => enrichmentFactor(exact(25), exact(0), exact(1))).toThrow(/reference element is 0/);
  });
});
