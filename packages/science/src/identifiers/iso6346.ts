import { QuantityError } from '../quantity-error.ts';

const where = 'ISO 6346';

/** What a freight container's number is checked by. */
export interface ContainerCheck {
  /** Values of the ten characters, each times two to the power of its place. */
  readonly sum: number;
  /** Of the sum by 11. */
  readonly remainder: number;
  readonly checkDigit: number;
  /** With its check digit. */
  readonly full: string;
  /**
   * False where the remainder is 10: its check digit 0 is that of a remainder of 0 as well, and the standard advises
   * against issuing such a number (from memory).
   */
  readonly isAdvised: boolean;
}

/** Kinds of equipment by the fourth letter. */
export const containerCategories = {
  U: 'freight container',
  J: 'equipment that is taken off a container',
  Z: 'trailer or chassis',
} as const;

/**
 * Value of a letter: A is 10, and on without the multiples of 11: B 12 ... K 21, L 23 ... U 32, V 34 ... Z 38.
 *
 * @throws QuantityError for anything but one capital letter
 */
export const letterValue = (letter: string): number => {
  if (!/^[A-Z]$/.test(letter))
    throw new QuantityError(where, `"${letter}" has no value`, 'one capital letter A to Z');
  const place = letter.charCodeAt(0) - 65;
  return 10 + place + (place > 0 ? 1 : 0) + (place > 10 ? 1 : 0) + (place > 20 ? 1 : 0);
};

const held = (code: string, pattern: RegExp, allowed: string): void => {
  if (!pattern.test(code)) throw new QuantityError(where, `"${code}" is no container’s number`, allowed);
};

/**
 * Check digit of a container's number: the sum of value times 2^place by 11, and its remainder by 10.
 *
 * Source: ISO 6346:1995, annex A (from public descriptions); CSQU3054383 is its published example.
 *
 * Capital letters alone: a number in small letters is refused, not mended, since a mark on a container has none.
 *
 * @param code three letters of the owner, category U, J or Z, six digits; no spaces
 * @throws QuantityError for anything else
 */
export const containerCheck = (code: string): ContainerCheck => {
  held(code, /^[A-Z]{3}[UJZ]\d{6}$/, 'three capital letters, U, J or Z, six digits, for example CSQU305438');
  let sum = 0;
  for (let i = 0; i < code.length; i++) sum += (i < 4 ? letterValue(code[i]) : Number(code[i])) * 2 ** i;
  const remainder = sum % 11;
  const checkDigit = remainder % 10;
  return { sum, remainder, checkDigit, full: `${code}${checkDigit}`, isAdvised: remainder !== 10 };
};

/** A number taken apart. */
export interface ContainerNumber {
  readonly owner: string;
  readonly category: keyof typeof containerCategories;
  readonly serial: string;
  readonly isAdvised: boolean;
}

/**
 * Reads a whole number with its check digit.
 *
 * @throws QuantityError for what is none, and where the check digit is another one
 */
export const readContainer = (full: string): ContainerNumber => {
  held(
    full,
    /^[A-Z]{3}[UJZ]\d{7}$/,
    'three capital letters, U, J or Z, six digits and the check digit, for example CSQU3054383',
  );
  const { checkDigit, isAdvised } = containerCheck(full.slice(0, 10));
  if (Number(full[10]) !== checkDigit)
    throw new QuantityError(where, `check digit of ${full} is ${full[10]}`, `${checkDigit} for these ten`);
  return {
    owner: full.slice(0, 3),
    category: full[3] as keyof typeof containerCategories,
    serial: full.slice(4, 10),
    isAdvised,
  };
};
