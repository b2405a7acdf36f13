import { isotopes } from '../constants/isotopes.ts';
import { QuantityError } from '../quantity-error.ts';
import type { Permil, Ratio } from '../units.ts';
import type { Measured } from './measured.ts';

type WaterIsotope = '2H' | '18O';

const table = {
  VSMOW: { '2H': isotopes.vsmowDelta2H, '18O': isotopes.vsmowDelta18O },
  SLAP: { '2H': isotopes.slapDelta2H, '18O': isotopes.slapDelta18O },
  VSMOW2: { '2H': isotopes.vsmow2Delta2H, '18O': isotopes.vsmow2Delta18O },
  SLAP2: { '2H': isotopes.slap2Delta2H, '18O': isotopes.slap2Delta18O },
  GISP: { '2H': isotopes.gispDelta2H },
  GISP2: { '2H': isotopes.gisp2Delta2H },
  USGS45: { '2H': isotopes.usgs45Delta2H },
  USGS46: { '2H': isotopes.usgs46Delta2H },
  USGS47: { '2H': isotopes.usgs47Delta2H },
  USGS48: { '2H': isotopes.usgs48Delta2H },
} as const satisfies Readonly<
  Record<string, { readonly '2H': Measured<Permil>; readonly '18O'?: Measured<Permil> }>
>;

/** Reference waters that are known by name; those after SLAP2 with 2H only. */
export const referenceWaters = Object.keys(table) as readonly string[];

/**
 * Agreed delta of a reference water against VSMOW, permil.
 *
 * Source: as each constant of `constants/isotopes.ts` says: SLAP exact by definition, VSMOW2 and SLAP2 by their
 * reference sheet, the others by CIAAW with half the expanded uncertainty.
 *
 * @throws QuantityError for a water that is not in the table, or not with this isotope
 */
export const referenceDelta = (water: string, isotope: WaterIsotope): Measured<Permil> => {
  const deltas: { readonly '2H': Measured<Permil>; readonly '18O'?: Measured<Permil> } | undefined =
    Object.hasOwn(table, water) ? table[water as keyof typeof table] : undefined;
  const delta = deltas?.[isotope];
  if (delta === undefined)
    throw new QuantityError(
      'reference water',
      `${water} has no delta ${isotope} here`,
      referenceWaters.join(' '),
    );
  return { value: delta.value, sd: delta.sd };
};

/** Ratio of the isotope in SLAP to that in VSMOW: 0.572 of 2H, 0.9445 of 18O, exact by definition (IUPAC 1993). */
export const slapRatio = (isotope: WaterIsotope): Ratio => 1 + referenceDelta('SLAP', isotope).value / 1000;
