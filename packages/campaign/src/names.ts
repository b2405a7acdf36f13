import { checkCharacters } from '@firnbook/science/identifiers';
import { type Sentence, sentence } from './texts/sentence.ts';

/**
 * Names of things: hole letter, kind letter, number, and for a piece its number within the run.
 * "B-R034" is run 34 of hole B, "B-P034.2" the second piece of that run.
 */
export interface NameParts {
  readonly hole: string;
  /** R run, P piece; later parts of the work bring their own letter. */
  readonly kind: string;
  readonly number: number;
  readonly piece?: number;
}

export type ReadName =
  | { readonly ok: true; readonly name: string; readonly parts: NameParts }
  | { readonly ok: false; readonly what: Sentence; readonly mend: Sentence };

/** "?" where a number is missing. */
const padded = (number: number | null): string => (number === null ? '?' : String(number).padStart(3, '0'));

export const runName = (letter: string, number: number | null): string => `${letter}-R${padded(number)}`;

export const pieceName = (letter: string, run: number | null, piece: number | null): string =>
  `${letter}-P${padded(run)}.${piece ?? '?'}`;

/** By ISO/IEC 7064 over digits alone: it finds every wrong digit and nearly every swap of neighbours. */
const checkDigit = (digits: string): string => checkCharacters(digits, 'MOD 11,10');

/** A name with its check digit: "B-R034-5". @throws RangeError for what is no name */
export function withCheck(name: string): string {
  const read = readName(name);
  if (!read.ok) throw new RangeError(`A check digit needs a name, not "${name}".`);
  return `${read.name}-${checkDigit(digitsOf(read.parts))}`;
}

const NAME = /^([A-Z])[\s-]*([A-Z])[\s-]*(\d{1,6})(?:\s*[.,]\s*(\d{1,3}))?(?:[\s-]+(\d))?$/;

/**
 * Read a name as people type or say it: lower case, spaces for hyphens, zeros left out, with or without the check
 * digit. A check digit that does not fit is refused.
 */
export function readName(text: string): ReadName {
  const found = NAME.exec(text.trim().toUpperCase());
  if (found === null)
    return {
      ok: false,
      what: sentence('refuse.name', { text: text.slice(0, 40) }),
      mend: sentence('mend.name'),
    };
  const parts: NameParts = {
    hole: found[1]!,
    kind: found[2]!,
    number: Number(found[3]),
    ...(found[4] === undefined ? {} : { piece: Number(found[4]) }),
  };
  const name = `${parts.hole}-${parts.kind}${padded(parts.number)}${parts.piece === undefined ? '' : `.${parts.piece}`}`;
  if (found[5] !== undefined && found[5] !== checkDigit(digitsOf(parts)))
    return {
      ok: false,
      what: sentence('refuse.check.digit', { name, digit: found[5] }),
      mend: sentence('mend.check.digit'),
    };
  return { ok: true, name, parts };
}

/**
 * What the check digit is computed from: each letter as its place in the alphabet in two digits (A 01 ... Z 26),
 * then the number in at least three digits, then the piece in at least two. So a letter misread is a wrong digit
 * like any other, and pencil never has to write a check letter.
 */
function digitsOf(parts: NameParts): string {
  const letter = (one: string): string => String(one.charCodeAt(0) - 64).padStart(2, '0');
  const piece = parts.piece === undefined ? '' : String(parts.piece).padStart(2, '0');
  return letter(parts.hole) + letter(parts.kind) + padded(parts.number) + piece;
}
