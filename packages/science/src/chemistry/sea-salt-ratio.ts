import { seawater } from '../constants/seawater.ts';
import { QuantityError } from '../quantity-error.ts';
import { ionProperties } from './ions.ts';
import type { Measured } from './measured.ts';

/** Ions of reference sea water that a sample's ion can be compared with. */
export const seaSaltIons = ['Na', 'Mg', 'Ca', 'K', 'Sr', 'Cl', 'SO4', 'HCO3', 'Br', 'CO3', 'F'] as const;
export type SeaSaltIon = (typeof seaSaltIons)[number];

/** @throws QuantityError for an ion that reference sea water has no entry of */
export const mustBeSeaSaltIon = (name: string): SeaSaltIon => {
  const found = seaSaltIons.find((ion) => ion === name);
  if (found !== undefined) return found;
  throw new QuantityError('reference sea water', `${name} is not in it`, seaSaltIons.join(' '));
};

export const ratioUnits = ['g/g', 'mol/mol', 'eq/eq'] as const;
export type RatioUnit = (typeof ratioUnits)[number];

/**
 * Published compositions of sea salt, by name:
 * - `Millero 2008`: reference sea water.
 * - `mirabilite lost`: the same, but sulphate to sodium 0.07 g/g: salt from freezing brine that has dropped mirabilite
 *   (D. Wagenbach et al. 1998, J. Geophys. Res. 103 (D9), 10961; from memory, the abstract's 60 to 80 % give its error).
 */
export const seaSalts = ['Millero 2008', 'mirabilite lost'] as const;
export type SeaSalt = (typeof seaSalts)[number];

/**
 * Ratio of two ions in sea salt, with the standard uncertainty that was published for it (0 where none was).
 *
 * Source: F. J. Millero, R. Feistel, D. G. Wright, T. J. McDougall 2008, Deep-Sea Res. I 55, 50-72, table 4,
 * doi:10.1016/j.dsr.2007.10.001. Validity: salinity drops out; the ratios of the main ions hold in the open ocean to
 * some 0.1 %, those of Ca, HCO3 and Sr to 1 % (from memory). Rounded ones (0.2516, 0.252, 0.25) are met as well.
 *
 * @param to the ion that traces the salt
 * @throws QuantityError where the salt's name is not about these two ions
 */
export const seaSaltRatio = (
  ion: SeaSaltIon,
  to: SeaSaltIon = 'Na',
  unit: RatioUnit = 'g/g',
  salt: SeaSalt = 'Millero 2008',
): Measured => {
  const perUnit = (of: SeaSaltIon): number => {
    const { molarMass, charge } = ionProperties(of);
    return { 'g/g': 1, 'mol/mol': 1 / molarMass, 'eq/eq': Math.abs(charge) / molarMass }[unit];
  };
  const factor = perUnit(ion) / perUnit(to);
  if (salt === 'Millero 2008') return { value: (factor * seawater[ion].value) / seawater[to].value, sd: 0 };
  if (ion !== 'SO4' || to !== 'Na')
    throw new QuantityError(
      'sea salt that lost mirabilite',
      `${ion}/${to} has no published ratio`,
      'SO4 to Na; for other ions give the ratio itself',
    );
  const { value, sd } = seawater.mirabiliteSulphateToSodium;
  return { value: factor * value, sd: factor * sd };
};
