import { fieldNumber } from './fields.ts';
import type { Worked } from './question.ts';
import { withUnit } from './unit-words.ts';

/** What went in, as a person would say it: "2 mm", "10 days". */
export function takenWords({ taken }: Worked, name: string): string {
  const { value, unit } = taken[name]!;
  return withUnit(fieldNumber(Number(value)).replace('-', '\u2212'), unit);
}
