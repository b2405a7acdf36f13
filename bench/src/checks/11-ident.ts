import { daysOfYearNamed } from '@firnbook/science/dating';
import { containerCheck, letterValue, readContainer } from '@firnbook/science/identifiers';
import type { Section } from './evaluator.ts';

const isRefused = (code: string): boolean => {
  try {
    readContainer(code);
    return false;
  } catch {
    return true;
  }
};

/** Numbers of which some are wrong; the sheet writes beside the one in small letters that it is up to the reader. */
const suspects: readonly (readonly [code: string, printed: string])[] = [
  ['CSQU3054383', 'CSQU3054383'],
  ['CSQU3054384', 'CSQU3054384'],
  ['MSKU1100817', 'MSKU1100817'],
  ['MSKU1100810', 'MSKU1100810'],
  ['CSQU3054338', 'CSQU3054338'],
  ['MSCU6639870', 'MSCU6639870'],
  ['csqu3054383', 'csqu3054383 (lower case: normalise or reject, state which)'],
];

export const section: Section = {
  section: '11_ident',
  evaluators: [
    {
      ids: /^iso6346\.letters$/,
      compute: () =>
        Object.fromEntries([...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'].map((letter) => [letter, letterValue(letter)])),
    },
    {
      ids: /^iso6346\.negative$/,
      compute: () => suspects.filter(([code]) => isRefused(code)).map(([, printed]) => printed),
    },
    {
      // of the one that should not be issued no whole number is printed
      ids: /^iso6346\.rem10$/,
      compute: ({ code }) => {
        const { sum, remainder, checkDigit } = containerCheck(code as string);
        return { sum, remainder, check: checkDigit };
      },
    },
    {
      ids: /^iso6346\.[A-Z]{4}\d{6}$/,
      compute: ({ code }) => {
        const { sum, remainder, checkDigit, full } = containerCheck(code as string);
        return { sum, remainder, check: checkDigit, full };
      },
    },
    {
      ids: /^year\.lengths$/,
      compute: () => ({
        UDUNITS_year_d: daysOfYearNamed('UDUNITS year'),
        UCUM_a_d: daysOfYearNamed('UCUM a'),
        UCUM_a_t_d: daysOfYearNamed('UCUM a_t'),
        UCUM_a_g_d: daysOfYearNamed('UCUM a_g'),
        NUBASE_y_d: daysOfYearNamed('NUBASE y'),
      }),
    },
  ],
  not: [
    {
      ids: /^(bagit|sha)\./,
      because:
        'hashes of files are no relation of the trade: the platform’s own digest makes them where a package is written, and no function of the science room does',
    },
  ],
};
