import { number } from '../texts/numbers.ts';

/** A number with as many digits as its uncertainty leaves a meaning to. */
export interface Rounded {
  readonly value: string;
  /** Null where the uncertainty is not known. */
  readonly sd: string | null;
}

/** Digits of a number whose uncertainty nobody knows. */
const digitsWithout = 3;

/**
 * A value written to the last place of its standard uncertainty. The three highest digits of that decide: 100 to 354
 * keep two, 355 to 949 keep one, 950 to 999 become 1000 and keep two.
 *
 * Source: Particle Data Group, Review of Particle Physics, introduction, "Rounding" (from memory).
 *
 * @param sd null or 0 where it is not known
 */
export function rounded(value: number, sd: number | null, locale?: string): Rounded {
  if (sd === null || sd === 0) {
    const decimals = value === 0 ? 0 : digitsWithout - 1 - highest(value, digitsWithout).place;
    return { value: written(value, decimals, locale), sd: null };
  }
  const { digits, place } = highest(sd, 3);
  const decimals = digits < 355 ? 1 - place : -place;
  return { value: written(value, decimals, locale), sd: written(sd, decimals, locale) };
}

/** The highest digits as a whole number, and the power of ten of the first one: 0.0352 has 352 at -2. */
function highest(value: number, count: number): { readonly digits: number; readonly place: number } {
  const [figure = '', place = ''] = Math.abs(value)
    .toExponential(count - 1)
    .split('e');
  return { digits: Number(figure.replace('.', '')), place: Number(place) };
}

/** @param decimals negative where tens and hundreds are rounded away */
function written(value: number, decimals: number, locale?: string): string {
  const step = 10 ** -decimals;
  const text =
    decimals >= 0 ? number(value, decimals, locale) : number(Math.round(value / step) * step, 0, locale);
  return text.replace(/^-/, '\u2212');
}
