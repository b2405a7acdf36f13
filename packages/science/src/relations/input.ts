import { QuantityError } from '../quantity-error.ts';
import type { NumbersTaken, NumberTaken, Taken } from './relation.ts';
import { convert } from './unit.ts';

/** What a person gives for one quantity of a relation, as they gave it. */
export type Input =
  | { readonly kind: 'number'; readonly value: number; readonly sd?: number; readonly unit: string }
  | {
      readonly kind: 'numbers';
      readonly values: readonly number[];
      readonly sd?: number;
      readonly unit: string;
    }
  | { readonly kind: 'words'; readonly text: string };

const digits = String.raw`[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d+)?`;
const single = new RegExp(String.raw`^(${digits})(?:\((\d+)\))?\s*(?:(?:±|\+-|\+/-)\s*(${digits}))?\s*(.*)$`);
const spread = new RegExp(String.raw`(?:±|\+-|\+/-)\s*(${digits})\s*(.*)$`);
/** A unit starts with a letter, a bracket, a sign of its own, or `1/`. */
const series = new RegExp(String.raw`^((?:${digits}[\s;,]*)+?)((?:1/|[A-Za-z%°‰µ[]).*)?$`);

const plain = (text: string): number => Number(text.replace(',', '.'));

/** 12.345(6): the digits in brackets count in the last place. */
const concise = (number: string, bracket: string): number =>
  Number(bracket) * 10 ** -(/[.,](\d*)/.exec(number)?.[1]?.length ?? 0);

const needsUnit = (taken: NumberTaken | NumbersTaken, unit: string, where: string): string => {
  if (unit !== '' || taken.unit === '1' || taken.unit === '') return unit === '' ? '1' : unit;
  throw new QuantityError(
    where,
    'the unit is missing',
    `a number and its unit, for example in ${taken.unit}`,
  );
};

/**
 * Reads what a person wrote for a quantity: `12.5 m`, `12.50(3) m`, `12.5 ± 0.03 m`, `-18 °C`; a series as
 * `2.1 3.9 6.2 kg` (or with commas; with semicolons the comma is a decimal one) and `± 0.1` behind it for each.
 *
 * @param where named in errors: the relation and the quantity
 * @throws QuantityError for what can't be read, a unit that is missing or of another kind
 */
export const parseInput = (taken: Taken, text: string, where = taken.what): Input => {
  if (taken.kind === 'choice' || taken.kind === 'text') return { kind: 'words', text: text.trim() };
  if (taken.kind === 'number') {
    const [, number, bracket, plusMinus, unit = ''] = single.exec(text.trim()) ?? [];
    if (number === undefined)
      throw new QuantityError(where, `"${text}" is no number`, `for example ${example(taken)}`);
    const sd =
      plusMinus !== undefined
        ? plain(plusMinus)
        : bracket !== undefined
          ? concise(number, bracket)
          : undefined;
    const named = needsUnit(taken, unit.trim(), where);
    convert(1, named, taken.unit, where);
    return { kind: 'number', value: plain(number), ...(sd === undefined ? {} : { sd }), unit: named };
  }
  const [, each, behind] = spread.exec(text) ?? [];
  const [, list, unit = ''] = series.exec(text.replace(spread, '').trim()) ?? [];
  const parts = (list ?? '').trim().split(list?.includes(';') ? /\s*;\s*/ : /[\s,]+/);
  const values = parts.filter((part) => part !== '').map(plain);
  if (list === undefined || values.length === 0 || values.some(Number.isNaN))
    throw new QuantityError(
      where,
      `"${text}" is no series of numbers`,
      `numbers with spaces between and a unit behind, for example ${example(taken)}`,
    );
  const named = needsUnit(taken, (behind?.trim() || unit).trim(), where);
  convert(1, named, taken.unit, where);
  return {
    kind: 'numbers',
    values,
    ...(each === undefined ? {} : { sd: plain(each) }),
    unit: named,
  };
};

const example = (taken: NumberTaken | NumbersTaken): string => {
  const [low, high] = taken.range;
  const number =
    (taken.kind === 'number' ? taken.usual : undefined) ??
    (Number.isFinite(low) && Number.isFinite(high) ? (low + high) / 2 : 1);
  const unit = taken.unit === '1' ? '' : ` ${taken.unit}`;
  return taken.kind === 'number' ? `${number}${unit}` : `${number} ${number}${unit}`;
};
