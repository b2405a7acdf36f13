import { mustLie, QuantityError } from '../quantity-error.ts';

/** A result of an analysis; with `below` its value is a limit that the content lay under. */
export interface CensoredReading {
  readonly value: number;
  readonly below: boolean;
}

/**
 * Results in their own writing, `<1 1.7 <0.9`: separated by blanks or semicolons, decimal points.
 *
 * @throws QuantityError naming the word that is not understood
 */
export const readCensored = (text: string): readonly CensoredReading[] =>
  text
    .trim()
    .split(/[\s;]+/)
    .map((word) => {
      const number = /^<?((\d+\.?\d*|\.\d+)(e[+-]?\d+)?)$/i.exec(word)?.[1];
      if (number === undefined)
        throw new QuantityError(
          'censored values',
          `"${word}" is not understood`,
          'values such as 1.7 or <0.9',
        );
      return { value: Number(number), below: word.startsWith('<') };
    });

/** @throws QuantityError for none, a value that is not above zero (their logarithm is asked for), nothing detected */
export const mustBeCensored = (
  where: string,
  readings: readonly CensoredReading[],
  detected: number,
): void => {
  for (const { value } of readings) mustLie(where, 'value', value, 1e-150, 1e150, '');
  const different = new Set(readings.filter(({ below }) => !below).map(({ value }) => value)).size;
  if (different < detected)
    throw new QuantityError(
      where,
      `${different} different values were detected among ${readings.length}`,
      `${detected} or more`,
    );
};
