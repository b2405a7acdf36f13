import { mustLie } from '../quantity-error.ts';
import { type Ion, ionProperties } from './ions.ts';

/** Units in which laboratories give ions of melt water: mass, amount, charge per kilogram of sample. */
export const amountUnits = ['ug/kg', 'umol/kg', 'ueq/kg'] as const;
export type AmountUnit = (typeof amountUnits)[number];

/**
 * An ion's amount in another unit: ug/kg = umol/kg times g/mol = ueq/kg times g/eq. A standard uncertainty converts by
 * the same factor.
 *
 * Source: definition of the equivalent, 1 mol of charge.
 *
 * @param amount any finite number: a blank that was taken off leaves values below zero
 * @throws QuantityError for a number that is not finite
 */
export const ionAmount = (amount: number, ion: Ion, from: AmountUnit, to: AmountUnit): number => {
  mustLie(`amount of ${ion}`, 'amount', amount, -Number.MAX_VALUE, Number.MAX_VALUE, from);
  const { molarMass, charge } = ionProperties(ion);
  const perMole = { 'ug/kg': molarMass, 'umol/kg': 1, 'ueq/kg': Math.abs(charge) };
  return (amount * perMole[to]) / perMole[from];
};
