import { readCensored } from './censored.ts';

/** D. R. Helsel 2005, Nondetects and Data Analysis, chapter 6: arsenic in ground water, ug/l (as public files have it). */
export const arsenic = readCensored(
  '<1 <1 1.7 <1 <1 <2 3.2 <2 <2 2.8 <2 <2 <2 <2 <2 0.7 0.9 0.5 0.5 <0.9 0.5 0.7 0.6 1.5',
);
