import type { Doubt } from './command.ts';
import { type Doubted, valueIn } from './doubted.ts';
import type { CountField, LengthsField, MeasureField } from './kind.ts';
import { lengthsIn } from './reading.ts';
import { likelySlips } from './slips.ts';
import { fieldText } from './texts/called.ts';
import { sentence } from './texts/sentence.ts';

/** Numbers outside of what their field usually holds. */
export function unusual(doubted: Doubted): readonly Doubt[] {
  const doubts: Doubt[] = [];
  for (const field of doubted.kind.fields) {
    if (!doubted.said.includes(field.name) || !('usual' in field)) continue;
    const doubt = doubtOf(doubted, field);
    if (doubt !== null) doubts.push(doubt);
  }
  return doubts;
}

function doubtOf(doubted: Doubted, field: MeasureField | CountField | LengthsField): Doubt | null {
  const { kind, readings } = doubted;
  const [least, most] = field.usual;
  const value = valueIn(doubted, field.name);
  if (value === null) return null;
  const text = readings[field.name]!;
  const isUsual = (one: number): boolean => one >= least && one <= most;
  const odd = field.quantity === 'lengths' ? lengthsIn(text, field).find((one) => !isUsual(one)) : value;
  if (odd === undefined || isUsual(odd)) return null;
  const about = { text, field: fieldText(kind.kind, field.name) };
  if (field.quantity === 'count')
    return { field: field.name, what: sentence('doubt.count', about), likely: [] };
  const bound = (measure: number) => ({
    measure,
    of: field.quantity === 'lengths' ? ('length' as const) : field.quantity,
    unit: field.unit,
  });
  return {
    field: field.name,
    what:
      odd < least
        ? sentence('doubt.less', { ...about, least: bound(least) })
        : sentence('doubt.more', { ...about, most: bound(most) }),
    likely: field.quantity === 'lengths' ? [] : likelySlips(text, field, kind, isUsual),
  };
}
