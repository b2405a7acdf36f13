export interface ReadNumber {
  readonly value: number;
  /** Places after the mark, exponent counted in. */
  readonly decimals: number;
  readonly endsInZero: boolean;
}

const form = /^([+-]?)(\d*)(?:[.,](\d*))?(?:[eE]([+-]?\d{1,3}))?$/;

/**
 * A number as people and programs write it: point or comma for decimals, no separators of thousands (1.234,5 and
 * 1,234.5 are not guessed at). A typographic minus counts as minus.
 *
 * @returns null for anything else
 */
export const readNumber = (text: string): ReadNumber | null => {
  const match = form.exec(text.trim().replace('\u2212', '-'));
  if (match === null) return null;
  const [, sign, whole = '', places = '', exponent = '0'] = match;
  if (whole === '' && places === '') return null;
  const value = Number(`${sign}${whole || '0'}.${places || '0'}e${exponent}`);
  if (!Number.isFinite(value)) return null;
  return { value, decimals: places.length - Number(exponent), endsInZero: places.endsWith('0') };
};

/** Scaled by a unit's factor without the noise of binary fractions: 87.3 cm is 0.873 m. */
export const inMetres = (value: number, metres: number): number =>
  metres === 1 ? value : Number((value * metres).toPrecision(15));
