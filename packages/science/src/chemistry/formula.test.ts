import { describe, expect, it } from 'vitest';
import { atomsOf, molarMass } from './formula.ts';

describe('molar mass of a formula', () => {
  // IUPAC atomic weights added by hand
  it.each([
    ['CH3SO3', 12.011 + 3 * 1.008 + 32.06 + 3 * 15.999],
    ['B(OH)4', 10.81 + 4 * (15.999 + 1.008)],
    ['Al2O3', 2 * 26.9815385 + 3 * 15.999],
    ['Ca(NO3)2', 40.078 + 2 * (14.007 + 3 * 15.999)],
  ])('%s', (formula, mass) => expect(molarMass(formula)).toBeCloseTo(mass, 10));

  it('counts an element that comes twice: acetate has two carbons', () => {
    expect(Object.fromEntries(atomsOf('CH3COO'))).toEqual({ C: 2, H: 3, O: 2 });
  });

  it.each(['', 'Xx', 'na', 'B(OH', 'OH)', '()', '2H', 'SO4-'])('refuses "%s"', (formula) => {
    expect(() => molarMass(formula)).toThrow(/formula/);
  });
});
