import { QuantityError } from '../quantity-error.ts';

/**
 * How years are counted: `CE` and `BCE` have no year 0 (1 BCE is followed by 1 CE); `astronomical` has (0 is 1 BCE);
 * `BP` counts back from 1950, `b2k` from 2000.
 */
export const epochs = ['CE', 'BCE', 'astronomical', 'BP', 'b2k'] as const;
export type Epoch = (typeof epochs)[number];

/**
 * The astronomical year of a year in any epoch: CE as it is, 1 - BCE, 1950 - BP, 2000 - b2k.
 *
 * Source: b2k and BP lie 50 years apart (GICC05, as public files have it); no year 0 is the calendar's rule.
 *
 * @param year CE and BCE from 1; the others may be negative (1963 CE is -13 BP). Decimals count on within the year
 * @throws QuantityError for a year 0 CE or BCE, or one further away than 100 million
 */
export const astronomicalYear = (year: number, epoch: Epoch): number => {
  if (!(Math.abs(year) <= 1e8)) throw new QuantityError('epochs', `the year is ${year}`, '-1e8 to 1e8');
  if ((epoch === 'CE' || epoch === 'BCE') && year < 1)
    throw new QuantityError('epochs', `there is no year ${year} ${epoch}`, `1 ${epoch} or more`);
  switch (epoch) {
    case 'CE':
    case 'astronomical':
      return year;
    case 'BCE':
      return 1 - year;
    case 'BP':
      return 1950 - year;
    case 'b2k':
      return 2000 - year;
  }
};

/** One year in every epoch. */
export interface YearByEpoch {
  readonly astronomical: number;
  readonly BP: number;
  readonly b2k: number;
  /** As people write it: "1257 CE", "44 BCE"; of a decimal year the year that it lies in. */
  readonly written: string;
}

/** @throws QuantityError as `astronomicalYear` */
export const yearByEpoch = (year: number, epoch: Epoch): YearByEpoch => {
  const astronomical = astronomicalYear(year, epoch);
  const whole = Math.floor(astronomical);
  return {
    astronomical,
    BP: 1950 - astronomical,
    b2k: 2000 - astronomical,
    written: whole >= 1 ? `${whole} CE` : `${1 - whole} BCE`,
  };
};
