import { describe, expect, it } from 'vitest';
import { seawater } from '../constants/seawater.ts';
import { mustBeSeaSaltIon, seaSaltRatio } from './sea-salt-ratio.ts';

describe('ratios of reference sea water', () => {
  // Millero, Feistel, Wright, McDougall 2008, table 4: ratios recomputed from its g/kg
  it.each([
    ['Cl', 1.795001, 1.16408, 1.16408],
    ['SO4', 0.251576, 0.060211, 0.120423],
    ['Mg', 0.119067, 0.112624, 0.225249],
    ['Ca', 0.038221, 0.021925, 0.043849],
    ['K', 0.037017, 0.021766, 0.021766],
    ['Br', 0.00624, 0.001795, 0.001795],
  ] as const)('%s to Na: %d by mass, %d by mole, %d by charge', (ion, mass, mol, eq) => {
    expect(Math.abs(seaSaltRatio(ion).value - mass)).toBeLessThan(2e-6);
    expect(Math.abs(seaSaltRatio(ion, 'Na', 'mol/mol').value - mol)).toBeLessThan(1e-5);
    expect(Math.abs(seaSaltRatio(ion, 'Na', 'eq/eq').value - eq)).toBeLessThan(1e-5);
  });

  it('the table adds up to 35.16504 g/kg', () => {
    const parts = Object.values(seawater).filter(({ unit }) => unit === 'g/kg');
    expect(parts.reduce((sum, { value }) => sum + value, 0)).toBeCloseTo(35.16504, 10);
  });

  it('without mirabilite sulphate to sodium is 0.07, with an error, and other ions are refused', () => {
    const { value, sd } = seaSaltRatio('SO4', 'Na', 'g/g', 'mirabilite lost');
    expect(value).toBe(0.07);
    expect(sd).toBeGreaterThan(0.01);
    expect(seaSaltRatio('SO4', 'Na', 'eq/eq', 'mirabilite lost').value).toBeCloseTo(
      (0.07 * 22.98976928) / 48.028,
      8,
    );
    expect(() => seaSaltRatio('Cl', 'Na', 'g/g', 'mirabilite lost')).toThrow(/Cl\/Na has no published ratio/);
    expect(() => mustBeSeaSaltIon('NO3')).toThrow(/NO3 is not in it/);
  });
});
