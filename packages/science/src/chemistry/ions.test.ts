import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { amountUnits, ionAmount } from './ion-amount.ts';
import { ionNames, ionProperties, mustBeIon } from './ions.ts';

describe('properties of ions', () => {
  // sums of IUPAC atomic weights, recomputed outside of the project
  it.each([
    ['Na', 22.9898, 1, 22.9898],
    ['NH4', 18.039, 1, 18.039],
    ['Mg', 24.305, 2, 12.1525],
    ['Cl', 35.45, -1, 35.45],
    ['NO3', 62.004, -1, 62.004],
    ['SO4', 96.056, -2, 48.028],
    ['MSA', 95.092, -1, 95.092],
    ['C2O4', 88.018, -2, 44.009],
    ['CH3COO', 59.044, -1, 59.044],
  ] as const)('%s: %d g/mol, charge %d, %d g/eq', (ion, mass, charge, perEquivalent) => {
    const found = ionProperties(ion);
    expect(found.molarMass).toBeCloseTo(mass, 3);
    expect(found.charge).toBe(charge);
    expect(found.perEquivalent).toBeCloseTo(perEquivalent, 3);
  });

  it('knows ions by name only', () => {
    expect(mustBeIon('MSA')).toBe('MSA');
    expect(() => mustBeIon('toString')).toThrow(/toString is not known; allowed: H Li Na/);
  });
});

describe('amounts of ions', () => {
  it('96.056 ug/kg of sulphate are 1 umol/kg and 2 ueq/kg', () => {
    expect(ionAmount(96.056, 'SO4', 'ug/kg', 'umol/kg')).toBeCloseTo(1, 12);
    expect(ionAmount(96.056, 'SO4', 'ug/kg', 'ueq/kg')).toBeCloseTo(2, 12);
    expect(ionAmount(-3, 'Ca', 'ueq/kg', 'ug/kg')).toBeCloseTo(-60.117, 10);
  });

  it('lead back from any unit to any other, for every ion', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...ionNames),
        fc.constantFrom(...amountUnits),
        fc.constantFrom(...amountUnits),
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        (ion, from, to, amount) => {
          const back = ionAmount(ionAmount(amount, ion, from, to), ion, to, from);
          expect(Math.abs(back - amount)).toBeLessThanOrEqual(1e-14 * Math.abs(amount) + 1e-300);
        },
      ),
    );
  });

  it('are finite', () => {
    expect(() => ionAmount(Number.NaN, 'Na', 'ug/kg', 'ueq/kg')).toThrow(/amount of Na: amount is NaN/);
  });
});
