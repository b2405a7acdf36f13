import { relationNamed } from '@firnbook/science/relations';
import { bare, figure, spoken, time } from '../figures.ts';
import { airTemperature, coreDiameter, coreTemperature, pieceJustLogged } from '../from-book.ts';
import { numberOf, type Question } from '../question.ts';
import { takenWords } from '../taken-words.ts';

/** How long a box of core keeps below the limit in air that is warmer. */
export const box: Question = {
  key: 'box',
  relation: relationNamed('box-warming')!,
  asked: ['start', 'ambient', 'cores', 'snow', 'insulation'],
  camp: {
    start: { units: ['Cel'], sd: 1, start: '-' },
    ambient: { units: ['Cel'], sd: 2 },
    cores: { units: ['1'] },
    snow: { units: ['cm', 'mm'], sd: 1 },
    insulation: { units: ['mm', 'cm'], sd: 2 },
    diameter: { units: ['mm', 'cm'], sd: 1, guess: 100 },
    length: { units: ['cm', 'm'], sd: 1, guess: 100 },
    density: { units: ['kg/m3'], sd: 20 },
    mass: { units: ['kg'] },
    snowDensity: { units: ['kg/m3'], sd: 50 },
    conductivity: { units: ['W/m/K'] },
    area: { units: ['m2'] },
    film: { units: ['W/m2/K'], sd: 2 },
    irradiance: { units: ['W/m2'] },
    albedo: { units: ['1', '%'] },
    limit: { units: ['Cel'], start: '-' },
  },
  heavy: true,
  fromBook: (book) => ({
    start: coreTemperature(book),
    ambient: airTemperature(book),
    diameter: coreDiameter(book, pieceJustLogged(book)),
  }),
  caution: 'calc.box.caution',
  answer: (worked) => {
    const core = numberOf(worked, 'core');
    const edge = numberOf(worked, 'edge');
    const limit = takenWords(worked, 'limit');
    if (core === null) return { headlines: [], says: [{ key: 'calc.box.never', values: { limit } }] };
    if (core.value <= 0)
      return { headlines: [], says: [], warns: [{ key: 'calc.box.already', values: { limit } }] };
    // The first order of an uncertainty says little of a time that may be over.
    const isUnsure = [core, edge].some((one) => one !== null && (one.sd ?? 0) > one.value / 2);
    const melted = numberOf(worked, 'melted')?.value ?? 0;
    return {
      headlines: [
        { label: { key: 'calc.box.core', values: { limit } }, figure: figure(time(core)) },
        ...(edge === null
          ? []
          : [{ label: { key: 'calc.box.edge', values: {} }, figure: figure(time(edge)) } as const]),
      ],
      says: [
        {
          key: 'calc.box.says',
          values: { limit, time: spoken(time(core)), mass: bare(numberOf(worked, 'ice')!) },
        },
        ...(edge === null
          ? []
          : [{ key: 'calc.box.at.wall', values: { time: spoken(time(edge)) } } as const]),
        ...(melted > 0.005
          ? [{ key: 'calc.box.melted', values: { share: Math.round(melted * 100) } } as const]
          : []),
      ],
      warns: isUnsure ? [{ key: 'calc.box.unsure', values: {} }] : [],
    };
  },
};
