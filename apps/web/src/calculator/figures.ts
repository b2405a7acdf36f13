import { convert } from '@firnbook/science/relations';
import { t } from '../texts/t.ts';
import { rounded } from './rounded.ts';
import { withUnit } from './unit-words.ts';

/** A number of a relation with its standard uncertainty, in a code of the science room's units. */
export interface Measured {
  readonly value: number;
  readonly sd: number | null;
  readonly unit: string;
}

/** The same in another unit of its kind. */
export const measuredIn = ({ value, sd, unit }: Measured, to: string): Measured => ({
  value: convert(value, unit, to),
  sd: sd === null ? null : convert(sd, unit, to, 'unit', true),
  unit: to,
});

/** For the eye: "7.8 ± 1.2 days". */
export function figure(measured: Measured): string {
  const { value, sd } = rounded(measured.value, measured.sd);
  return withUnit(sd === null ? value : `${value}\u00a0±\u00a0${sd}`, measured.unit);
}

/** For the ear: "7.8 days, give or take 1.2". */
export function spoken(measured: Measured): string {
  const { value, sd } = rounded(measured.value, measured.sd);
  const whole = withUnit(value, measured.unit);
  return sd === null ? whole : t('calc.give.or.take', { value: whole, sd });
}

/** The number alone, to as many digits as its uncertainty leaves. */
export const bare = ({ value, sd, unit }: Measured): string => withUnit(rounded(value, sd).value, unit);

const hours = { minute: 1 / 60, day: 24, year: 8766 };

/** A time in the unit that people say it in: minutes up to two hours, hours up to two days, days, years. */
export function time(measured: Measured): Measured {
  const inHours = Math.abs(convert(measured.value, measured.unit, 'h'));
  if (inHours < 2) return measuredIn(measured, 'min');
  if (inHours < 2 * hours.day) return measuredIn(measured, 'h');
  return measuredIn(measured, inHours < 2 * hours.year ? 'd' : 'a');
}

/** A short length in the unit of a bench: millimetres to a centimetre, centimetres to a metre. */
export function length(measured: Measured): Measured {
  const metres = Math.abs(convert(measured.value, measured.unit, 'm'));
  return measuredIn(measured, metres < 0.01 ? 'mm' : metres < 1 ? 'cm' : 'm');
}
