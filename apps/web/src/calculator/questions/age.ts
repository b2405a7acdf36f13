import { relationNamed } from '@firnbook/science/relations';
import { bare, figure, length, measuredIn, spoken } from '../figures.ts';
import { fromSite, holeDepth } from '../from-book.ts';
import { numberOf, type Question } from '../question.ts';

/** Age of the ice at a depth, and how thick a year's layer is there. */
export const age: Question = {
  key: 'age',
  relation: relationNamed('age-at-depth')!,
  asked: ['depth', 'thickness', 'accumulation', 'temperature'],
  camp: {
    depth: { units: ['m'], sd: 0.1 },
    thickness: { units: ['m'], sdShare: 0.05 },
    accumulation: { units: ['m w.e./a', 'mm w.e./a'], sdShare: 0.1 },
    temperature: { units: ['Cel'], sd: 1, start: '-' },
    surfaceDensity: { units: ['kg/m3'], sd: 30 },
    kinkShare: { units: ['1', '%'], sd: 0.05 },
    p: { units: ['1'], sd: 0.2 },
  },
  fromBook: (book) => ({
    depth: holeDepth(book),
    accumulation: fromSite(book, 'accumulation', 'm w.e./a'),
    temperature: fromSite(book, 'temperature', 'Cel'),
    surfaceDensity: fromSite(book, 'surfaceDensity', 'kg/m3'),
  }),
  answer: (worked) => {
    const [years, layer, water, there] = ['age', 'layer', 'layerWater', 'density'].map(
      (name) => numberOf(worked, name)!,
    );
    return {
      headlines: [
        { label: { key: 'calc.age.age', values: {} }, figure: figure(years!) },
        { label: { key: 'calc.age.layer', values: {} }, figure: figure(length(layer!)) },
      ],
      says: [
        { key: 'calc.age.says', values: { age: spoken(years!) } },
        {
          key: 'calc.age.year',
          values: {
            layer: spoken(length(layer!)),
            water: bare(measuredIn(water!, 'mm w.e.')),
            density: bare(there!),
          },
        },
        { key: 'calc.age.model', values: { model: String(worked.taken.model!.value) } },
      ],
    };
  },
};
