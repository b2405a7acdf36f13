import { relationNamed } from '@firnbook/science/relations';
import { bare, figure, type Measured, spoken, time } from '../figures.ts';
import { coreTemperature, fromSetUp, holeDepth, meanDensity } from '../from-book.ts';
import { numberOf, type Question, type Worked } from '../question.ts';
import { takenWords } from '../taken-words.ts';

/** How fast the hole closes at its bottom, and how long until the drill's room is gone. */
export const closure: Question = {
  key: 'closure',
  relation: relationNamed('hole-closure')!,
  asked: ['depth', 'diameter', 'temperature', 'clearance'],
  camp: {
    depth: { units: ['m'], sd: 0.2 },
    diameter: { units: ['mm'], sd: 0.5 },
    temperature: { units: ['Cel'], sd: 0.5, start: '-' },
    clearance: { units: ['mm'], sd: 0.2 },
    meanDensity: { units: ['kg/m3'], guess: 900, sd: 30 },
    days: { units: ['d', 'h', 'wk'] },
    fluidDensity: { units: ['kg/m3'] },
    fluidLevel: { units: ['m'] },
    gravity: { units: ['m/s2'] },
  },
  readsDensity: true,
  fromBook: (book) => ({
    depth: holeDepth(book),
    diameter: fromSetUp(book, 'holeDiameter'),
    temperature: coreTemperature(book),
    meanDensity: meanDensity(book),
  }),
  caution: 'calc.closure.caution',
  answer: (worked) => {
    const lost = numberOf(worked, 'lossTime');
    const shortest = numberOf(worked, 'shortestLossTime');
    const then = numberOf(worked, 'diameterThen')!;
    const days = takenWords(worked, 'days');
    const after = {
      key: 'calc.closure.after',
      values: { days, diameter: spoken(then) },
    } as const;
    if (lost === null)
      return {
        headlines: [{ label: { key: 'calc.closure.then', values: { days } }, figure: figure(then) }],
        says: [{ key: 'calc.closure.open', values: {} }, after],
      };
    return {
      headlines: [
        { label: { key: 'calc.closure.time', values: {} }, figure: figure(time(lost)) },
        { label: { key: 'calc.closure.then', values: { days } }, figure: figure(then) },
      ],
      says: [
        {
          key: 'calc.closure.says',
          values: {
            loss: takenWords(worked, 'clearance'),
            time: spoken(time(lost)),
            rate: bare(daily(worked)),
          },
        },
        ...(shortest === null || shortest.value >= lost.value
          ? []
          : ([
              {
                key: 'calc.closure.shortest',
                values: { loss: takenWords(worked, 'clearance'), time: bare(time(shortest)) },
              },
            ] as const)),
        after,
      ],
    };
  },
};

/** Diameter that is lost in a day. */
function daily(worked: Worked): Measured {
  const share = numberOf(worked, 'rate')!;
  const diameter = Number(worked.taken.diameter!.value);
  return { value: (share.value / 100) * diameter, sd: null, unit: 'mm' };
}
