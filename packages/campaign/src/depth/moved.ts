import type { Cause, Change, Movement } from '@firnbook/science/depth-scales';
import { asItIs, fieldText, kindText } from '../texts/called.ts';
import { type Sentence, sentence, type Value } from '../texts/sentence.ts';
import type { NameOf } from './verdict.ts';

/** A movement of less is not told: half the last digit of a length. */
const WORTH_SAYING = 0.0005;
/** Causes that are told one by one. */
const MOST = 3;

/**
 * Why a piece moved: "B-P034.2 moved 12 mm down because the length of B-P031.1 was corrected from 84.5 cm to 85.7 cm."
 * The movement told is that of its bottom.
 */
export function movedSentence(movement: Movement, changes: readonly Change[], nameOf: NameOf): Sentence {
  const name = nameOf(movement.piece);
  const causes = movement.causes.filter(({ bottom }) => Math.abs(bottom) >= WORTH_SAYING);
  const [first] = causes;
  if (Math.abs(movement.bottom) < WORTH_SAYING || first === undefined) return sentence('moved.not', { name });
  const way = movement.bottom > 0 ? 'down' : 'up';
  const length = millimetres(movement.bottom);
  if (causes.length === 1)
    return sentence(`moved.${way}`, { name, length, cause: causeSentence(changes[first.change]!, nameOf) });
  const told = causes.slice(0, MOST).map((cause) => shareSentence(cause, changes, nameOf));
  const rest = causes.length > MOST ? [sentence('moved.rest')] : [];
  return sentence(`moved.${way}.several`, { name, length, causes: [...told, ...rest] });
}

const shareSentence = (cause: Cause, changes: readonly Change[], nameOf: NameOf): Sentence =>
  sentence(cause.bottom > 0 ? 'moved.share.down' : 'moved.share.up', {
    length: millimetres(cause.bottom),
    cause: causeSentence(changes[cause.change]!, nameOf),
  });

/** One change, to stand after "because". */
export function causeSentence(change: Change, nameOf: NameOf): Sentence {
  switch (change.kind) {
    case 'corrected': {
      const values = { name: nameOf(change.which), field: fieldText(change.what, bookField(change.field)) };
      const before = wordOf(change.field, change.before, nameOf);
      const after = wordOf(change.field, change.after, nameOf);
      if (change.before === undefined && after !== null) return sentence('cause.given', { ...values, after });
      if (change.after === undefined && before !== null)
        return sentence('cause.taken', { ...values, before });
      if (before === null || after === null) return sentence('cause.changed', values);
      return sentence('cause.corrected', { ...values, before, after });
    }
    case 'added': {
      const name = nameOf(change.which);
      return change.pieces === undefined
        ? sentence('cause.added', { name })
        : sentence('cause.added.run', { name, count: change.pieces.length });
    }
    case 'removed':
      return sentence('cause.removed', { name: nameOf(change.which) });
    case 'order':
      return sentence('cause.order', { kinds: kindText(change.what, 2) });
    case 'setting':
      return sentence('cause.setting', { setting: fieldText('depth settings', change.name) });
    case 'assumption':
      return sentence('cause.assumption', {
        assumption: fieldText('depth settings', change.name),
        before: asItIs(String(change.before)),
        after: asItIs(String(change.after)),
      });
    case 'solver':
      return sentence('cause.solver', { before: change.before, after: change.after });
  }
}

/** Fields of the readings that are called otherwise in the book. */
const bookFields: Readonly<Record<string, string>> = {
  leftInHole: 'stub',
  resets: 'counter',
  outOfPlace: 'ice',
  orderUnsure: 'order',
  foundLater: 'found',
  crumbledMassLength: 'mass',
};

/** What a field of the solver's readings is called in the book. */
export const bookField = (field: string): string => bookFields[field] ?? field;

/** Lengths on the bench are told in centimetres, depths in metres. */
const benchLengths: ReadonlySet<string> = new Set(['length', 'loss', 'kerf', 'height', 'sd']);
const runs: ReadonlySet<string> = new Set(['run', 'afterRun', 'fromRun']);

/** Null for what is no single number or word. */
function wordOf(field: string, value: unknown, nameOf: NameOf): Value | null {
  if (typeof value === 'number')
    return benchLengths.has(field) ? { measure: value, of: 'length', unit: 'cm' } : { depth: value };
  if (typeof value === 'string') return runs.has(field) ? nameOf(value) : value;
  return null;
}

const millimetres = (metres: number): Value => ({
  measure: Math.abs(Math.round(metres * 1000)) / 1000,
  of: 'length',
  unit: 'mm',
});
