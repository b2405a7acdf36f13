/** How far a computed number may lie from the printed one. */
export type Limit = (expected: number, key: string) => number;

/** One unit of the last digit that the sheet prints. */
const lastDigit = (expected: number): number => {
  const [digits = '', exponent = '0'] = String(Math.abs(expected)).split('e');
  const decimals = digits.split('.')[1]?.length ?? 0;
  return 10 ** (Number(exponent) - decimals);
};

/**
 * Half a unit of the last digit that the sheet prints, where the number was rounded to be printed: nothing printed can say
 * more. Whole numbers and short ones (2.5, 0.125: three digits, three decimals at most) were not rounded.
 */
const rounding = (expected: number): number => {
  const unit = lastDigit(expected);
  const isShort = unit >= 1e-3 && Math.abs(expected) < 1000 * unit;
  return Number.isInteger(expected) || isShort ? 0 : 0.5001 * unit;
};

const significant = (expected: number, digits: number): number =>
  expected === 0 ? 0 : 0.5 * 10 ** (Math.floor(Math.log10(Math.abs(expected))) - digits + 1);

/** Strictest reading of a bare number: absolute where the value is above 1, relative below, never under the print. */
const bare =
  (tolerance: number): Limit =>
  (expected) =>
    Math.max(tolerance * Math.min(Math.abs(expected), 1), rounding(expected));

const relative =
  (tolerance: number): Limit =>
  (expected) =>
    Math.max(tolerance * Math.abs(expected), rounding(expected), Number.MIN_VALUE);

const exact: Limit = (expected) => Math.max(4 * Number.EPSILON * Math.abs(expected), rounding(expected));

/** Tolerances of several numbers in one entry: by the name that stands beside each. */
const named = (text: string, id: string): number | undefined => {
  const name = id.split('.')[1] ?? id;
  const found = new RegExp(String.raw`\b${name}\b[^\d]*([\d.]+(?:e-?\d+)?)`).exec(text);
  return found === null ? undefined : Number(found[1]);
};

/**
 * The limit that a written tolerance means.
 *
 * @throws Error for a writing that nobody taught it
 */
export const limitOf = (text: string, id: string): Limit => {
  const number = /^([\d.]+(?:e-?\d+)?)$/.exec(text)?.[1];
  if (number !== undefined) return bare(Number(number));
  const ratio = /^([\d.]+(?:e-?\d+)?) rel$/.exec(text)?.[1];
  if (ratio !== undefined) return relative(Number(ratio));
  const absolute = /^(?:MC )?([\d.]+(?:e-?\d+)?)(?: abs)?$/.exec(text)?.[1];
  if (absolute !== undefined) return () => Number(absolute);
  if (text === '0.1 %') return relative(1e-3);
  if (text === 'exact' || text === 'published' || text === 'must be rejected') return exact;
  if (text === '2 significant digits') return (expected) => significant(expected, 2);
  if (text === '1 in last digit') return (expected) => 1.0001 * lastDigit(expected);
  if (text === '1e-6 rel (b), 1e-5 (se)')
    return (expected, key) => relative(key === 'se' ? 1e-5 : 1e-6)(expected, key);
  if (text === 'uc 0.5 nm')
    return (expected, key) => (key.startsWith('uc') ? 0.5 : 0.5001 * lastDigit(expected));
  // The tolerances of these values are their published uncertainties: the values themselves are exact copies.
  if (text.startsWith('CIAAW')) return exact;
  const own = named(text, id);
  // of a published 0 no share can be taken
  if (own !== undefined) return (expected, key) => (expected === 0 ? own : relative(own)(expected, key));
  throw new Error(`check ${id}: the tolerance "${text}" is not understood`);
};
