import { relationNamed } from '@firnbook/science/relations';
import { depth as depthWords, metres } from '../../texts/numbers.ts';
import { bare, figure, type Measured, spoken } from '../figures.ts';
import { airTemperature, cableWords, coreTemperature, counterDepth } from '../from-book.ts';
import { numberOf, type Question } from '../question.ts';

/** How much longer the cable hangs than the counter says. */
export const stretch: Question = {
  key: 'stretch',
  relation: relationNamed('cable-stretch')!,
  asked: ['counter', 'load', 'cableMass', 'stiffness'],
  camp: {
    counter: { units: ['m'], sd: 0.01 },
    load: { units: ['kg'], sd: 3 },
    cableMass: { units: ['g/m', 'kg/m'], sdShare: 0.02 },
    stiffness: { units: ['kN'], sdShare: 0.05 },
    top: { units: ['Cel'], guess: -10, sd: 5, start: '-' },
    bottom: { units: ['Cel'], guess: -20, sd: 5, start: '-' },
    calibrated: { units: ['Cel'], guess: 0, sd: 10 },
    expansion: { units: ['[ppm]/K'], sdShare: 0.1 },
    slack: { units: ['m', 'cm'] },
    gravity: { units: ['m/s2'] },
  },
  fromBook: (book) => ({
    counter: counterDepth(book),
    top: airTemperature(book),
    bottom: coreTemperature(book),
  }),
  notes: (book) => ({ stiffness: cableWords(book) }),
  caution: 'calc.stretch.caution',
  answer: (worked) => {
    const [whole, depth, elastic, thermal] = ['stretch', 'depth', 'elastic', 'thermal'].map(
      (name) => numberOf(worked, name)!,
    );
    return {
      headlines: [
        { label: { key: 'calc.stretch.stretch', values: {} }, figure: figure(whole!) },
        { label: { key: 'calc.stretch.depth', values: {} }, figure: drillDepth(depth!) },
      ],
      says: [
        {
          key: whole!.value < 0 ? 'calc.stretch.shorter' : 'calc.stretch.says',
          values: {
            stretch: spoken({ ...whole!, value: Math.abs(whole!.value) }),
            elastic: bare(elastic!),
            thermal: bare(thermal!),
          },
        },
        { key: 'calc.stretch.so', values: { depth: drillDepth(depth!) } },
      ],
    };
  },
};

/** As every other depth in the book: "111.07 m ± 2 cm". */
const drillDepth = ({ value, sd }: Measured): string =>
  sd === null ? metres(value) : depthWords({ value, sd });
