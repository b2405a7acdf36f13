import type { Doubt } from './command.ts';
import type { Kind, MeasureField } from './kind.ts';
import { readReading } from './reading.ts';
import { type Sentence, sentence } from './texts/sentence.ts';
import { type Dimension, unitCalled } from './unit.ts';

/** A slip that people make when they read or write a number down, and what the reading would have been. */
interface Slip {
  readonly label: Sentence;
  readonly text: string;
}

const TYPED = /^\s*([+\-\u2212]?)\s*(\d*)([.,]?)(\d*)\s*(.*?)\s*$/;

/** Units that are taken for each other. Common practice, no source. */
const MISTAKEN: Readonly<Partial<Record<Dimension, readonly string[]>>> = {
  length: ['m', 'cm', 'mm'],
  mass: ['kg', 'g'],
  volume: ['l', 'ml'],
  force: ['kN', 'N', 'kgf'],
};

/**
 * The likely slips that would make a number come out as wanted, the likeliest first; common practice, no source.
 *
 * @param text the reading as typed
 * @param field one of the fields of `kind`
 * @param isRight whether a number in the base unit would do
 */
export function likelySlips(
  text: string,
  field: MeasureField,
  kind: Kind,
  isRight: (value: number) => boolean,
): Doubt['likely'] {
  const typed = TYPED.exec(text);
  if (typed === null || !readReading(text, field, kind).ok) return [];
  const [, sign, whole, mark, decimals, unit] = typed as unknown as [
    string,
    string,
    string,
    string,
    string,
    string,
  ];
  const digits = whole + decimals;
  const written = (number: string, places: number, unitText: string): string => {
    const padded = number.padStart(places + 1, '0');
    const cut = padded.length - places;
    const head = padded.slice(0, cut).replace(/^0+(?=\d)/, '');
    return `${sign}${head}${places === 0 ? '' : `${mark === '' ? '.' : mark}${padded.slice(cut)}`}${unitText === '' ? '' : ` ${unitText}`}`;
  };
  const same = (number: string): string => written(number, decimals.length, unit);
  const slip = (key: Sentence['key'], meant: string, values: Sentence['values'] = {}): Slip => ({
    label: sentence(key, { ...values, text: meant }),
    text: meant,
  });
  const said = unitCalled(field.quantity, unit === '' ? field.unit : unit);
  const candidates: Slip[] = [];
  const other = sign === '' || sign === '+' ? '-' : '';
  if (field.usual[0] < 0) candidates.push(slip('slip.sign', `${other}${same(digits).slice(sign.length)}`));
  for (const by of [0.1, -0.1]) candidates.push(...shifted(by, 'slip.by.10cm'));
  for (let i = 0; i + 1 < digits.length; i++)
    // A swap that puts a nought in front is a reading that nobody would have written.
    if (digits[i] !== digits[i + 1] && (i > 0 || digits[1] !== '0' || whole.length < 2))
      candidates.push(
        slip('slip.digits', same(digits.slice(0, i) + digits[i + 1] + digits[i] + digits.slice(i + 2))),
      );
  for (const meant of MISTAKEN[field.quantity] ?? [])
    if (meant !== said?.unit)
      candidates.push(slip('slip.unit', written(digits, decimals.length, meant), { unit: meant }));
  for (const by of [1, -1]) candidates.push(...shifted(by, 'slip.by.1m'));
  const right = candidates.filter((candidate) => {
    const read = readReading(candidate.text, field, kind);
    if (!read.ok || read.reading.value === null) return false;
    return (read.reading.value > 0 || field.usual[0] < 0) && isRight(read.reading.value);
  });
  return right
    .filter((one, index) => right.findIndex((other) => other.text === one.text) === index)
    .slice(0, 3)
    .map((one) => ({ label: one.label, readings: { [field.name]: one.text } }));

  function shifted(metres: number, key: 'slip.by.10cm' | 'slip.by.1m'): readonly Slip[] {
    if (field.quantity !== 'length' || said?.factor.power === undefined || sign !== '') return [];
    // In units of the last digit typed, so that no digit of the rest changes.
    const steps = metres / 10 ** (said.factor.power - decimals.length);
    const moved = Number(digits) + Math.round(steps);
    if (Math.abs(steps) < 0.5 || moved <= 0) return [];
    return [slip(key, same(String(moved).padStart(digits.length, '0')))];
  }
}
