import { convert, type Input, type Relation, type Taken } from '@firnbook/science/relations';
import { typedNumber } from '../forms/typed.ts';
import { t } from '../texts/t.ts';
import type { Offer, Offers } from './offer.ts';
import type { CampUnit, Question } from './question.ts';
import { unitWords, withUnit } from './unit-words.ts';

/** What a person changed in one field. Where no digit is typed, what was offered stands. */
export interface Typed {
  readonly text: string;
  readonly sd: string;
  /** Code of the unit that it is typed in. */
  readonly unit: string;
}

type NumberTaken = Extract<Taken, { kind: 'number' }>;
type From = 'typed' | 'book' | 'usual' | 'guess' | 'nothing';

/** One number field as it stands on the screen. */
export interface Field {
  readonly take: string;
  readonly taken: NumberTaken;
  readonly text: string;
  readonly sd: string;
  readonly unit: string;
  readonly units: readonly string[];
  readonly signed: boolean;
  readonly from: From;
  /** Where the offered value comes from; what the book says where something else was typed. */
  readonly says: string | null;
}

/** Fields that a person has touched, by the name of their quantity. */
export type AllTyped = Readonly<Record<string, Typed>>;

/** Quantities under "more": all that are not asked for up front, in the relation's order. */
export const namesUnderMore = ({ relation, asked }: Question): readonly string[] =>
  Object.keys(relation.takes).filter((name) => !asked.includes(name));

/** What stands in a field, in the unit that it is shown in. */
export function fieldOf(question: Question, take: string, typed: Typed | undefined, offers: Offers): Field {
  const taken = question.relation.takes[take] as NumberTaken;
  const camp = question.camp[take] ?? { units: [taken.unit] };
  const unit = typed?.unit ?? camp.units[0]!;
  const here = (value: number, from: string, difference = false) =>
    convert(value, from, unit, take, difference);
  const isTyped = isNumber(typed?.text);
  const book = offers[take];
  const usual = unsaid(camp, taken);
  const offer: Omit<Offer, 'says'> | undefined = book ?? usual;
  const value = isTyped
    ? typedNumber(typed.text)
    : offer === undefined
      ? null
      : here(offer.value, offer.unit);
  const sd =
    !isTyped && offer?.sd !== undefined ? here(offer.sd, offer.unit, true) : usualSd(camp, value, here);
  return {
    take,
    taken,
    text: isTyped
      ? typed.text
      : value !== null
        ? fieldNumber(value, book === undefined ? exact : measured)
        : ((typed?.text || camp.start) ?? ''),
    sd: isNumber(typed?.sd) ? typed.sd : sd === null ? '' : fieldNumber(sd, 2),
    unit,
    units: camp.units,
    signed: here(taken.range[0], taken.unit) < 0,
    from: isTyped ? 'typed' : book !== undefined ? 'book' : (usual?.from ?? 'nothing'),
    says:
      book === undefined
        ? null
        : isTyped
          ? t('calc.book.says', {
              value: withUnit(fieldNumber(here(book.value, book.unit)), unit),
              says: book.says,
            })
          : book.says,
  };
}

const isNumber = (text: string | undefined): text is string => text !== undefined && /\d/.test(text);

/** What stands in a field that neither a person nor the book has filled. */
function unsaid(
  { guess, units }: CampUnit,
  taken: NumberTaken,
): (Omit<Offer, 'says'> & { readonly from: 'usual' | 'guess' }) | undefined {
  if (taken.usual !== undefined) return { value: taken.usual, unit: taken.unit, from: 'usual' };
  return guess === undefined ? undefined : { value: guess, unit: units[0]!, from: 'guess' };
}

function usualSd(
  { sd, sdShare, units }: CampUnit,
  value: number | null,
  here: (value: number, from: string, difference: boolean) => number,
): number | null {
  if (sdShare !== undefined) return value === null ? null : Math.abs(value) * sdShare;
  return sd === undefined ? null : here(sd, units[0]!, true);
}

/** Digits of what was measured, and of a usual value, which a person can look up. */
const measured = 5;
const exact = 7;

/** As a keypad would type it: no exponent, no needless zeros, the reader's decimal sign. */
export function fieldNumber(value: number, digits = measured): string {
  const plain = Number(value.toPrecision(digits));
  const decimals = Math.min(12, Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(plain) || 1))));
  const text = plain.toFixed(decimals);
  return (text.includes('.') ? text.replace(/\.?0+$/, '') : text).replace('.', decimalSign);
}

const decimalSign =
  new Intl.NumberFormat().formatToParts(1.5).find((part) => part.type === 'decimal')?.value ?? '.';

export interface Given {
  readonly inputs: Readonly<Record<string, Input>>;
  /** What is wrong with a field and what would be taken, by the name of its quantity. */
  readonly problems: Readonly<Record<string, string>>;
  /** Quantities that have no value yet. */
  readonly missing: readonly string[];
}

/** The fields and choices as a relation takes them, each held to its range in the unit that it was typed in. */
export function givenBy(
  relation: Relation,
  fields: readonly Field[],
  choices: Readonly<Record<string, string>>,
): Given {
  const inputs: Record<string, Input> = {};
  const problems: Record<string, string> = {};
  const missing: string[] = [];
  for (const field of fields) {
    const value = typedNumber(field.text);
    const sd = typedNumber(field.sd);
    if (value === null) missing.push(field.take);
    else if (!isWithin(field, value)) problems[field.take] = rangeProblem(field);
    else if (sd !== null && sd < 0) problems[field.take] = t('calc.sd.below');
    else inputs[field.take] = { kind: 'number', value, unit: field.unit, ...(sd === null ? {} : { sd }) };
  }
  for (const [name, text] of Object.entries(choices))
    if (Object.hasOwn(relation.takes, name)) inputs[name] = { kind: 'words', text };
  return { inputs, problems, missing };
}

/** Bounds in the field's unit. */
const boundsOf = ({ taken, unit, take }: Field): readonly [number, number] => {
  const [low, high] = taken.range;
  return [convert(low, taken.unit, unit, take), convert(high, taken.unit, unit, take)];
};

/** Bounds pass through two conversions; what a person typed as the bound itself counts as within. */
function isWithin(field: Field, value: number): boolean {
  const [low, high] = boundsOf(field);
  const slack = 1e-9 * Math.max(1, Math.abs(value));
  return Number.isFinite(value) && value >= low - slack && value <= high + slack;
}

function rangeProblem(field: Field): string {
  const [low, high] = boundsOf(field);
  const unit = unitWords(field.unit);
  return t('calc.range', {
    value: withUnit(field.text, field.unit),
    low: fieldNumber(low),
    high: unit === '' ? fieldNumber(high) : withUnit(fieldNumber(high), field.unit),
    because: field.taken.because,
  });
}
