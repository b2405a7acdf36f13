import { QuantityError } from '../quantity-error.ts';
import type { GramsPerMole, Ratio } from '../units.ts';
import { molarMass } from './formula.ts';

/** Formula and charge by the name that a laboratory's table uses. */
const table = {
  H: ['H', 1],
  Li: ['Li', 1],
  Na: ['Na', 1],
  NH4: ['NH4', 1],
  K: ['K', 1],
  Mg: ['Mg', 2],
  Ca: ['Ca', 2],
  Sr: ['Sr', 2],
  F: ['F', -1],
  Cl: ['Cl', -1],
  Br: ['Br', -1],
  NO2: ['NO2', -1],
  NO3: ['NO3', -1],
  SO4: ['SO4', -2],
  MSA: ['CH3SO3', -1],
  HCO3: ['HCO3', -1],
  CO3: ['CO3', -2],
  OH: ['OH', -1],
  HCOO: ['HCOO', -1],
  CH3COO: ['CH3COO', -1],
  C2O4: ['C2O4', -2],
  'B(OH)4': ['B(OH)4', -1],
} as const satisfies Readonly<Record<string, readonly [string, number]>>;

export type Ion = keyof typeof table;

/** Ions that are known by name: `MSA` is methanesulphonate, `HCOO` formate, `CH3COO` acetate, `C2O4` oxalate. */
export const ionNames = Object.keys(table) as readonly Ion[];

export interface IonProperties {
  readonly formula: string;
  readonly molarMass: GramsPerMole;
  readonly charge: Ratio;
  /** Grams per equivalent: per mole of charge. */
  readonly perEquivalent: GramsPerMole;
}

/** @throws QuantityError for a name that is no ion of ours */
export const mustBeIon = (name: string): Ion => {
  if (Object.hasOwn(table, name)) return name as Ion;
  throw new QuantityError('ion', `${name} is not known`, ionNames.join(' '));
};

/**
 * Molar mass, charge and mass per equivalent of an ion.
 *
 * Source: atomic weights of `constants/atomic-weights.ts`; charges are those in dilute water.
 */
export const ionProperties = (ion: Ion): IonProperties => {
  const [formula, charge] = table[ion];
  const mass = molarMass(formula);
  return { formula, molarMass: mass, charge, perEquivalent: mass / Math.abs(charge) };
};
