import type { Constant } from './constant.ts';

const read =
  'IUPAC Commission on Isotopic Abundances and Atomic Weights, standard or conventional atomic weight, as a public table quotes it';
const remembered = 'IUPAC Commission on Isotopic Abundances and Atomic Weights, conventional atomic weight';

const weight = (symbol: string, value: number, seen: Constant['seen'] = 'read'): Constant => ({
  symbol: `A_r(${symbol})`,
  what: `molar mass of ${symbol}`,
  value,
  sd: null,
  unit: 'g/mol',
  source: seen === 'read' ? read : remembered,
  seen,
});

/** Molar masses of the elements that ions, oxides and sea salt are made of. */
export const atomicWeights = {
  H: weight('H', 1.008),
  Li: weight('Li', 6.94, 'from memory'),
  B: weight('B', 10.81, 'from memory'),
  C: weight('C', 12.011),
  N: weight('N', 14.007),
  O: weight('O', 15.999),
  F: weight('F', 18.998403163),
  Na: weight('Na', 22.98976928),
  Mg: weight('Mg', 24.305),
  Al: weight('Al', 26.9815385),
  Si: weight('Si', 28.085, 'from memory'),
  P: weight('P', 30.973761998, 'from memory'),
  S: weight('S', 32.06),
  Cl: weight('Cl', 35.45),
  K: weight('K', 39.0983),
  Ca: weight('Ca', 40.078),
  Ti: weight('Ti', 47.867),
  Mn: weight('Mn', 54.938044),
  Fe: weight('Fe', 55.845),
  Br: weight('Br', 79.904),
  Sr: weight('Sr', 87.62),
  Ba: weight('Ba', 137.327),
  Pb: weight('Pb', 207.2),
} as const satisfies Readonly<Record<string, Constant>>;
