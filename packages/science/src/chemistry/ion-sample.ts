import { QuantityError } from '../quantity-error.ts';
import { type AmountUnit, ionAmount } from './ion-amount.ts';
import type { IonReading } from './ion-balance.ts';
import { mustBeIon } from './ions.ts';

/** 12.34(5): the digits in brackets count in the last place. */
const sdIn = (number: string, bracket: string | undefined, stated: string | undefined): number => {
  if (bracket === undefined) return Number(stated ?? 0);
  return Number(bracket) * 10 ** -(number.split('.')[1]?.length ?? 0);
};

/**
 * Ions of a sample in their own writing: `Na 40(2), Ca 12 ± 0.6, MSA <0.5`: separated by commas, semicolons or
 * new lines, decimal points; a standard uncertainty in brackets or behind ±, a limit behind <.
 *
 * @param unit of all of them; the readings come in ug/kg
 * @throws QuantityError naming the part that is not understood
 */
export const readIonSample = (text: string, unit: AmountUnit = 'ug/kg'): readonly IonReading[] =>
  text
    .split(/[,;\n]/)
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .map((part) => {
      const found =
        /^(\S+)\s+(<)?\s*(-?\d+\.?\d*(?:e[+-]?\d+)?)(?:\((\d+)\))?(?:\s*(?:±|\+-|\+\/-)\s*(\d+\.?\d*))?$/.exec(
          part,
        );
      const [, name = '', limit, number = '', bracket, stated] = found ?? [];
      if (found === null)
        throw new QuantityError(
          'ions of a sample',
          `"${part}" is not understood`,
          'ions such as Na 40(2), MSA <0.5',
        );
      const ion = mustBeIon(name);
      const inMass = (amount: number): number => ionAmount(amount, ion, unit, 'ug/kg');
      return {
        ion,
        value: inMass(Number(number)),
        sd: inMass(sdIn(number, bracket, stated)),
        below: limit !== undefined,
      };
    });
