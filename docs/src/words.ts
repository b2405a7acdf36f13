import { unitWords } from '@firnbook/drawing';
import { escaped } from './escaped.ts';

/** Text with the papers in it linked by their doi. */
export const cited = (text: string): string =>
  escaped(text).replace(
    /doi:(10\.\d{4,9}\/[^\s,;)\]]*[^\s,;.)\]])/g,
    '<a href="https://doi.org/$1" rel="noreferrer">doi:$1</a>',
  );

/** "ρ_i" with its index below, "k_{0}" too. */
export const symbolHtml = (symbol: string): string =>
  escaped(symbol).replace(
    /_(?:\{([^}]*)\}|([\p{L}\p{N}]+))/gu,
    (_, braced?: string, bare?: string) => `<sub>${braced ?? bare}</sub>`,
  );

/** A number as a computer writes it, with the signs of print: "1.2e-5" is 1.2 × 10⁻⁵. */
export const numberHtml = (value: number): string => {
  const [digits = '', power] = String(value).split('e');
  const signed = (text: string): string => text.replace('-', '\u2212').replace('+', '');
  if (!Number.isFinite(value)) return value > 0 ? 'no limit' : value < 0 ? 'no limit' : '';
  if (power === undefined) return signed(grouped(digits));
  return `${signed(digits)}\u00a0×\u00a010<sup>${signed(power)}</sup>`;
};

/** Whole numbers of five digits and more in groups of three, with thin spaces. */
const grouped = (digits: string): string =>
  /^-?\d{5,}$/.test(digits) ? digits.replace(/\B(?=(\d{3})+$)/g, '\u202f') : digits;

/** A unit as print has it, with the dash of a pure number where there is none. */
export const unitHtml = (unit: string): string => escaped(unitWords(unit)) || '1';
