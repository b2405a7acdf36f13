import {
  accumulationOfSlope,
  constantConcentrationAge,
  constantSupply,
  decayed,
  decimalYear,
  elapsedYears,
  halfLife,
  readDate,
  relativeErrorByHalfLife,
  writtenOrdinal,
  writtenWeek,
} from '@firnbook/science/dating';
import type { Section } from './evaluator.ts';

type Numbers = Readonly<Record<string, number>>;

/** The part of an id between its dots that names the nuclide, or the boundary. */
const partOf = (id: string, place: number): string => id.split('.')[place] ?? '';

export const section: Section = {
  section: '04_horizons',
  evaluators: [
    {
      ids: /^halflife\.NUBASE2020\./,
      compute: (_, id) => {
        const { value, sd } = halfLife(partOf(id, 2), 'NUBASE2020').published;
        return [value, sd];
      },
    },
    {
      ids: /^decay\./,
      // the entry leaves out the error of the half-life: that of the nuclide that its id names, as published
      compute: (inputs, id) => {
        const { A0, half_life, dt } = inputs as Numbers;
        const { sd } = halfLife(partOf(id, 1), 'NUBASE2020').published;
        return [decayed(A0!, dt!, half_life!), relativeErrorByHalfLife(dt!, half_life!, sd ?? 0)];
      },
    },
    {
      ids: /^decaycorr\./,
      compute: ({ A_meas, meas, dep, half_life }) => {
        const elapsed = elapsedYears(readDate(dep as string), readDate(meas as string), 'UCUM a');
        return decayed(A_meas as number, -elapsed, half_life as number);
      },
    },
    {
      ids: /^pb210\.CIC\./,
      compute: (inputs) => {
        const { C0, C, half_life } = inputs as Numbers;
        return constantConcentrationAge(C0!, C!, half_life!);
      },
    },
    {
      ids: /^pb210\.CRS\.boundary/,
      compute: ({ layers_mwe, conc_mBq_kg, tail_mBq_m2, half_life }, id) => {
        const boundaries = layers_mwe as readonly number[];
        const concentrations = conc_mBq_kg as readonly number[];
        const { ages } = constantSupply(
          {
            boundaries,
            concentrations,
            sds: concentrations.map(() => 0),
            tail: tail_mBq_m2 as number,
            tailSd: 0,
          },
          half_life as number,
        );
        return ages[boundaries.indexOf(Number(id.slice('pb210.CRS.boundary'.length)))] ?? null;
      },
    },
    {
      ids: /^pb210\.slope$/,
      compute: (inputs) => {
        const { slope_per_mwe, half_life } = inputs as Numbers;
        return accumulationOfSlope(slope_per_mwe!, half_life!);
      },
    },
    {
      ids: /^date\./,
      compute: ({ date }) => {
        const day = readDate(date as string);
        return { decimal_year: decimalYear(day), ordinal: writtenOrdinal(day), week: writtenWeek(day) };
      },
    },
    { ids: /^isoweek\./, compute: ({ date }) => writtenWeek(readDate(date as string)) },
  ],
  not: [],
};
