import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { covarianceOf, firstOrderSd } from './first-order.suite.ts';
import { type IonReading, ionBalance } from './ion-balance.ts';
import { ionNames, mustBeIon } from './ions.ts';

const sample: readonly IonReading[] = Object.entries({
  Na: 40,
  NH4: 8,
  K: 3,
  Mg: 5.5,
  Ca: 12,
  Cl: 75,
  NO3: 60,
  SO4: 85,
  MSA: 4,
}).map(([name, value], i) => ({ ion: mustBeIon(name), value, sd: 0.1 * (i + 1) }));

describe('ion balance', () => {
  // nine ions recomputed outside of the project from IUPAC atomic weights
  it('of nine ions: 3.311532 and 4.895201 ueq/kg, 1.583669 of acid, pH 5.80034, -19.297 % or -38.594 %', () => {
    const balance = ionBalance(sample);
    expect(balance.cations.value).toBeCloseTo(3.311532, 5);
    expect(balance.anions.value).toBeCloseTo(4.895201, 5);
    expect(balance.hydrogen.value).toBeCloseTo(1.583669, 5);
    expect(balance.ph!.value).toBeCloseTo(5.80034, 5);
    expect(balance.toSum!.value).toBeCloseTo(-19.297195, 5);
    expect(balance.toMean!.value).toBeCloseTo(-38.59439, 5);
  });

  it('carries errors and covariances into each of its numbers', () => {
    const shared = [
      { ions: ['Na', 'Cl'], covariance: 0.05 },
      { ions: ['SO4', 'Cl'], covariance: -0.2 },
    ] as const;
    const found = ionBalance(sample, shared);
    const at = sample.map(({ value }) => value);
    const place = (name: string) => sample.findIndex(({ ion }) => ion === name);
    const covariance = covarianceOf(
      sample.map(({ sd }) => sd),
      shared.map(({ ions: [a, b], covariance: c }) => [place(a), place(b), c] as const),
    );
    const again = (...values: readonly number[]) =>
      ionBalance(sample.map((reading, i) => ({ ...reading, value: values[i]! })));
    expect(found.cations.sd).toBeCloseTo(
      firstOrderSd((...x) => again(...x).cations.value, at, covariance),
      8,
    );
    expect(found.anions.sd).toBeCloseTo(
      firstOrderSd((...x) => again(...x).anions.value, at, covariance),
      8,
    );
    expect(found.hydrogen.sd).toBeCloseTo(
      firstOrderSd((...x) => again(...x).hydrogen.value, at, covariance),
      8,
    );
    expect(found.ph!.sd).toBeCloseTo(
      firstOrderSd((...x) => again(...x).ph!.value, at, covariance),
      8,
    );
    expect(found.toSum!.sd).toBeCloseTo(
      firstOrderSd((...x) => again(...x).toSum!.value, at, covariance),
      7,
    );
    expect(found.toMean!.sd).toBeCloseTo(2 * found.toSum!.sd, 12);
  });

  it('leaves open what a nondetect is: 95.092 ug/kg of MSA at most is 1 ueq/kg of acid at most', () => {
    const balance = ionBalance([
      { ion: 'Na', value: 22.98976928, sd: 0 },
      { ion: 'Cl', value: 70.9, sd: 0 },
      { ion: 'MSA', value: 95.092, sd: 0, below: true },
      { ion: 'Ca', value: 20.039 / 2, sd: 0, below: true },
    ]);
    expect(balance.hydrogen.value).toBeCloseTo(1, 10);
    expect(balance.hydrogenRange[0]).toBeCloseTo(0.5, 10);
    expect(balance.hydrogenRange[1]).toBeCloseTo(2, 10);
  });

  it('has no pH where bases are left over, and no percent where nothing was found', () => {
    expect(ionBalance([{ ion: 'Ca', value: 30, sd: 1 }]).ph).toBeNull();
    expect(ionBalance([]).toSum).toBeNull();
  });

  it('any sample: adding the implied hydrogen ion closes it', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.constantFrom(...ionNames.filter((ion) => ion !== 'H')), { minLength: 1 }),
        fc.array(fc.double({ min: 0.01, max: 500, noNaN: true }), { minLength: 30, maxLength: 30 }),
        (names, values) => {
          const readings = names.map((ion, i) => ({ ion, value: values[i]!, sd: 1 }));
          const { hydrogen } = ionBalance(readings);
          const closed = ionBalance([...readings, { ion: 'H', value: hydrogen.value * 1.008, sd: 0 }]);
          expect(Math.abs(closed.hydrogen.value)).toBeLessThan(1e-10);
        },
      ),
    );
  });

  it('refuses an ion twice, a limit of nothing, a covariance that cannot be', () => {
    const na = { ion: 'Na', value: 1, sd: 1 } as const;
    expect(() => ionBalance([na, na])).toThrow(/Na is given twice/);
    expect(() => ionBalance([{ ...na, value: 0, below: true }])).toThrow(/Na is 0 ug\/kg/);
    expect(() => ionBalance([{ ...na, value: Number.NaN }])).toThrow(/Na is NaN/);
    expect(() => ionBalance(sample, [{ ions: ['Na', 'K'], covariance: 9 }])).toThrow(
      /covariance of Na and K is 9/,
    );
  });
});
