import type { LengthField } from './kind.ts';
import { readReading } from './reading.ts';
import { lengthUnits, unitWords } from './unit.ts';

/** A slip that people make when they read or write a length down, and what the reading would have been. */
interface Slip {
  readonly label: string;
  readonly text: string;
}

const TYPED = /^\s*([+\-\u2212]?)\s*(\d*)([.,]?)(\d*)\s*(.*?)\s*$/;

/**
 * The likely slips that would make a length come out as wanted, the likeliest first; common practice, no source.
 *
 * @param text the reading as typed
 * @param isRight whether a length in metres would do
 */
export function likelySlips(
  text: string,
  field: LengthField,
  isRight: (metres: number) => boolean,
): readonly Slip[] {
  const typed = TYPED.exec(text);
  if (typed === null || !readReading(text, field).ok) return [];
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
  const candidates: Slip[] = [];
  for (const by of [0.1, -0.1]) candidates.push(...shifted(by, '10 cm'));
  for (let i = 0; i + 1 < digits.length; i++)
    // A swap that puts a nought in front is a reading that nobody would have written.
    if (digits[i] !== digits[i + 1] && (i > 0 || digits[1] !== '0' || whole.length < 2))
      candidates.push(
        slip('Digits swapped', same(digits.slice(0, i) + digits[i + 1] + digits[i] + digits.slice(i + 2))),
      );
  for (const other of ['m', 'cm', 'mm'])
    if (other !== (unit === '' ? field.unit : (unitWords.get(unit.toLowerCase()) ?? unit.toLowerCase())))
      candidates.push(slip(`Meant ${other}`, written(digits, decimals.length, other)));
  for (const by of [1, -1]) candidates.push(...shifted(by, '1 m'));
  const right = candidates.filter(({ text: other }) => {
    const read = readReading(other, field);
    return read.ok && read.reading.value !== null && read.reading.value > 0 && isRight(read.reading.value);
  });
  return right
    .filter((one, index) => right.findIndex((other) => other.text === one.text) === index)
    .slice(0, 3);

  function shifted(metres: number, size: string): readonly Slip[] {
    const factor = lengthUnits.get(
      unitWords.get(unit.toLowerCase()) ?? (unit === '' ? field.unit : unit.toLowerCase()),
    );
    if (factor === undefined || !('power' in factor) || sign !== '') return [];
    // In units of the last digit typed, so that no digit of the rest changes.
    const steps = metres / 10 ** (factor.power - decimals.length);
    const moved = Number(digits) + Math.round(steps);
    if (Math.abs(steps) < 0.5 || moved <= 0) return [];
    return [slip(`Misread by ${size}`, same(String(moved).padStart(digits.length, '0')))];
  }
}

const slip = (what: string, text: string): Slip => ({ label: `${what}: ${text}`, text });
