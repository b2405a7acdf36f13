import { QuantityError } from '../quantity-error.ts';

const digits = '0123456789';
const letters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

/** A system of the standard: what it checks, and what its check characters are. */
interface System {
  /** Characters that may be checked, in the order of their values. */
  readonly checked: string;
  /** Characters that may be check characters, in the order of their values. */
  readonly checks: string;
  readonly modulus: number;
  readonly radix: number;
  /** 0 for a hybrid one, whose modulus and radix differ by one and whose check is a character like the others. */
  readonly pureChecks: 0 | 1 | 2;
}

const systems = {
  'MOD 11,10': { checked: digits, checks: digits, modulus: 11, radix: 10, pureChecks: 0 },
  'MOD 37,36': {
    checked: digits + letters,
    checks: digits + letters,
    modulus: 37,
    radix: 36,
    pureChecks: 0,
  },
  'MOD 11-2': { checked: digits, checks: `${digits}X`, modulus: 11, radix: 2, pureChecks: 1 },
  'MOD 37-2': {
    checked: digits + letters,
    checks: `${digits}${letters}*`,
    modulus: 37,
    radix: 2,
    pureChecks: 1,
  },
  'MOD 97-10': { checked: digits, checks: digits, modulus: 97, radix: 10, pureChecks: 2 },
} as const satisfies Readonly<Record<string, System>>;

export type CheckSystem = keyof typeof systems;
/** Systems by their designation; the first is the one that this trade's own labels use. */
export const checkSystems = Object.keys(systems) as readonly CheckSystem[];

const where = (system: CheckSystem): string => `ISO/IEC 7064, ${system}`;

/**
 * Check characters of a string.
 *
 * - Pure systems (`MOD 11-2`, `MOD 37-2`, `MOD 97-10`): values a_i with weights r^i from the right, check characters at
 *   weight 1 (and 10), make the sum 1 modulo M.
 * - Hybrid systems (`MOD 11,10`, `MOD 37,36`): P = M - 1; for each character S = (P + a) mod (M - 1), a 0 counting as M - 1,
 *   P = 2 S mod M; the check character makes the last S 1.
 *
 * Every single wrong character is found, and nearly every swap of neighbours (in pure systems every one).
 *
 * Source: ISO/IEC 7064:2003 (from memory; examples beside the tests).
 *
 * @param text characters of the system, without its check; no spaces or hyphens
 * @throws QuantityError for an empty string, and for a character that the system has not
 */
export const checkCharacters = (text: string, system: CheckSystem): string => {
  const { checked, checks, modulus, radix, pureChecks }: System = systems[system];
  if (text === '') throw new QuantityError(where(system), 'the string is empty', 'a character or more');
  const values = [...text].map((character) => {
    const value = checked.indexOf(character);
    if (value < 0)
      throw new QuantityError(
        where(system),
        `"${character}" in "${text}" is none of its characters`,
        checked,
      );
    return value;
  });
  if (pureChecks === 0) {
    let product: number = radix;
    for (const value of values) product = ((((product + value) % radix || radix) * 2) % modulus) as number;
    return checks[(modulus - product) % radix];
  }
  let rest = 0;
  for (const value of values) rest = ((rest + value) * radix) % modulus;
  // the last step has made room for one check character; a second one needs another place
  if (pureChecks === 2) rest = (rest * radix) % modulus;
  const check = (modulus + 1 - rest) % modulus;
  return pureChecks === 1 ? checks[check] : String(check).padStart(2, '0');
};

/** Whether a string is one that the system can check: not empty, of its characters alone. */
export const canBeChecked = (text: string, system: CheckSystem): boolean => {
  const { checked }: System = systems[system];
  return text !== '' && [...text].every((character) => checked.includes(character));
};

/** Whether a string ends in the check characters of what stands before. */
export const hasRightCheck = (whole: string, system: CheckSystem): boolean => {
  const { pureChecks }: System = systems[system];
  const length = pureChecks || 1;
  const text = whole.slice(0, -length);
  return canBeChecked(text, system) && checkCharacters(text, system) === whole.slice(-length);
};
