import { type Dimension, type Factor, unitCalled } from './unit.ts';

/** No sensible number is longer; keeps every pattern below linear and short. */
export const LONGEST = 40;
const NUMBER = /^([+-]?)(\d*)(?:[.,](\d*))?$/;

/** What is wrong with a number: what the text, its unit or its digits lack. */
export type Fault =
  | {
      readonly fault:
        | 'refuse.too.long'
        | 'refuse.unreadable'
        | 'refuse.gap'
        | 'refuse.two.marks'
        | 'refuse.no.number';
    }
  | { readonly fault: 'refuse.unit'; readonly unit: string };

type Measured = { readonly value: number; readonly step: number } | Fault;

/** A unit as it may be typed: letters, degree sign, per cent, a power behind, something per something. */
const UNIT =
  '[%\u2030\u00b0]|deg ?[a-z]+|\u00b0? ?[a-z"\'\u2032\u2033\u00b5\u03bc]+(?:3|-1)?(?:/[a-z]+3?)?|/[a-z]+|';
const TYPED = new RegExp(`^([+-]? ?[\\d.,' ]*?) ?(${UNIT})$`, 'i');

/** A number with or without its unit, in the base unit; or what is wrong. */
export function measure(text: string, dimension: Dimension, assumed: string): Measured {
  if (text.length > LONGEST) return { fault: 'refuse.too.long' };
  const typed = TYPED.exec(plain(text));
  if (typed === null) return { fault: 'refuse.unreadable' };
  const unit = typed[2] === '' ? assumed : typed[2]!;
  const factor = unitCalled(dimension, unit)?.factor;
  if (factor === undefined) return { fault: 'refuse.unit', unit };
  const number = readNumber(typed[1]!.replace(/^([+-]) /, '$1'));
  return 'fault' in number ? number : scaled(number, factor);
}

/** Signs that mean the same brought to one: minus, degree, cube, per. */
export const plain = (text: string): string =>
  text
    .replace(/\u2212/g, '-')
    .replace(/[\u00ba\u02da]/g, '\u00b0')
    .replace(/\u2103/g, '\u00b0C')
    .replace(/\u2109/g, '\u00b0F')
    .replace(/\u207b\u00b9/g, '-1')
    .replace(/\u00b3/g, '3')
    .replace(/ 1\/(?=[a-z])/i, ' /');

/** The power of ten goes into the text, so that 87,5 cm and 0.875 m are the same number to the last bit. */
function scaled({ sign, whole, decimals }: Digits, factor: Factor): Measured {
  const { power = 0, times = 1, over = 1, less } = factor;
  const typed =
    less === undefined
      ? Number(`${sign}${whole}.${decimals}e${power}`)
      : difference(`${sign}${whole}.${decimals}`, less);
  const value = (typed * times) / over;
  const step = (Number(`1e${power - decimals.length}`) * times) / over;
  return { value: value === 0 ? 0 : value, step };
}

/** The number nearest to the exact difference of two decimal texts. */
function difference(a: string, b: string): number {
  const places = Math.max(...[a, b].map((text) => (text.split('.')[1] ?? '').length));
  const inPlaces = (text: string): bigint => {
    const [whole, decimals = ''] = text.split('.') as [string, string?];
    return BigInt(`${whole}${decimals.padEnd(places, '0')}`);
  };
  return Number(`${inPlaces(a) - inPlaces(b)}e-${places}`);
}

interface Digits {
  readonly sign: string;
  readonly whole: string;
  readonly decimals: string;
}

/** Sign and digits, or what is wrong. */
function readNumber(digits: string): Digits | Fault {
  if (/\d[ ']+[\d.,]|[.,] /.test(digits)) return { fault: 'refuse.gap' };
  if ((digits.match(/[.,]/g) ?? []).length > 1) return { fault: 'refuse.two.marks' };
  const parts = NUMBER.exec(digits);
  if (parts === null || (parts[2] === '' && (parts[3] ?? '') === '')) return { fault: 'refuse.no.number' };
  const sign = parts[1] === '+' ? '' : parts[1]!;
  return { sign, whole: parts[2] === '' ? '0' : parts[2]!, decimals: parts[3] ?? '' };
}

/** The unit that a number is typed with; empty where there is none. */
export const unitOf = (part: string): string => TYPED.exec(part)?.[2] ?? '';
