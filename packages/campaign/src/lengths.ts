import type { LengthsField } from './kind.ts';
import { type Fault, LONGEST, measure, plain, unitOf } from './measure.ts';

/** Lengths that one reading may hold. */
const LENGTHS_MOST = 50;

export type Each = { readonly values: readonly number[] } | (Fault & { readonly part: string });

/**
 * Each length of a reading of several, in metres, as typed from left to right. They stand apart by ";" or white space.
 * One without a unit has the next unit typed, else the last, else the field's.
 *
 * @param text without white space but single spaces inside
 */
export function eachLength(text: string, field: LengthsField): Each {
  // A unit belongs to the number before it, whatever white space stands between; a sign to the one behind it.
  const parts = plain(text)
    .replace(/ (?=[a-z"'\u2032\u2033])/gi, '')
    .replace(/([+-]) /g, '$1')
    .split(/ ?; ?| /)
    .filter((part) => part !== '');
  if (parts.length === 0) return { fault: 'refuse.no.number', part: text };
  if (parts.length > LENGTHS_MOST || parts.some((part) => part.length > LONGEST))
    return { fault: 'refuse.too.long', part: text };
  const values: number[] = [];
  let unit: string = field.unit;
  // From behind, so that a number without a unit finds the one that was typed after it.
  const last = parts.findLast((part) => unitOf(part) !== '');
  if (last !== undefined) unit = unitOf(last);
  for (const part of parts.toReversed()) {
    if (unitOf(part) !== '') unit = unitOf(part);
    const measured = measure(part, 'length', unit);
    if ('fault' in measured) return { ...measured, part };
    values.unshift(measured.value);
  }
  return { values };
}
