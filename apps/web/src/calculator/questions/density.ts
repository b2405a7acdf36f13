import { relationNamed } from '@firnbook/science/relations';
import { bare, figure, measuredIn, spoken } from '../figures.ts';
import { coreDiameter, pieceJustLogged, pieceMass, readingOffer } from '../from-book.ts';
import { numberOf, type Question } from '../question.ts';

/** Above what ice can have by so many standard uncertainties: impossible, as the relation's verdict has it. */
const impossible = 3;

/** Density of the piece on the bench, and whether ice can have it. */
export const density: Question = {
  key: 'density',
  relation: relationNamed('piece-density')!,
  asked: ['mass', 'length', 'diameter'],
  camp: {
    mass: { units: ['g', 'kg'], sd: 5 },
    length: { units: ['cm', 'mm', 'm'], sd: 0.3 },
    diameter: { units: ['mm', 'cm'], sd: 0.4 },
    temperature: { units: ['Cel'], sd: 3, start: '-' },
  },
  // Looking for the slip behind a density that can't be takes a tablet a quarter of a second.
  heavy: true,
  fromBook: (book) => {
    const piece = pieceJustLogged(book);
    return {
      mass: piece && pieceMass(book, piece),
      length: readingOffer(book, piece, 'length', 'm'),
      diameter: coreDiameter(book, piece),
      temperature: readingOffer(book, piece, 'temperature', 'Cel'),
    };
  },
  answer: (worked) => {
    const [found, water, ice, excess] = ['density', 'water', 'ice', 'excess'].map((name) =>
      numberOf(worked, name),
    );
    const verdict = worked.results.possible?.value;
    const says = excess!.value <= 0 ? 'calc.density.possible' : 'calc.density.edge';
    const isImpossible = excess!.value > impossible * (excess!.sd ?? 0);
    return {
      headlines: [
        { label: { key: 'calc.density.density', values: {} }, figure: figure(found!) },
        { label: { key: 'calc.density.water', values: {} }, figure: figure(measuredIn(water!, 'mm w.e.')) },
      ],
      says: [
        { key: 'calc.density.says', values: { density: spoken(found!) } },
        ...(excess!.value > 0 && isImpossible
          ? []
          : [{ key: says, values: { ice: bare(ice!), excess: bare(excess!) } } as const]),
      ],
      warns:
        excess!.value > 0 && isImpossible
          ? [{ key: 'calc.density.impossible', values: { says: String(verdict) } }]
          : [],
    };
  },
};
