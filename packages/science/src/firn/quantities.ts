import { firnConstants } from '../constants/firn.ts';
import { numbersTaken, numberTaken } from '../relations/relation.ts';

/** Quantities that several relations of firn take. */

export const temperature = numberTaken(
  'T',
  'temperature of the firn at 10 m',
  'Cel',
  [-73.15, 0],
  '200 to 273.15 K: what the formula can bear; calibrated on -57 to -15 °C (from memory)',
);

export const accumulation = numberTaken(
  'A',
  'accumulation',
  'm w.e./a',
  [0.001, 10],
  'what the formula can bear; calibrated on 0.02 to 0.5 m w.e./a (from memory)',
);

export const surfaceDensity = {
  ...numberTaken('ρ_0', 'density of the snow at the surface', 'kg/m3', [50, 900], 'snow to firn'),
  usual: 350,
};

export const iceDensity = {
  ...numberTaken('ρ_i', 'density of ice', 'kg/m3', [850, 940], 'no ice has others'),
  usual: 917,
};

export const closeOffVariant = {
  kind: 'choice',
  symbol: 'ρ_co',
  what: 'density of close-off by',
  options: ['Martinerie 1994', 'Martinerie 1992', '830'],
} as const;

export const densityOf = (what: string, symbol = 'ρ') =>
  numberTaken(symbol, what, 'kg/m3', [50, 917], "snow to the model's ice");

export const depth = numberTaken('z', 'depth', 'm', [0, 5000], 'no ice sheet is thicker');

export const numbers = (symbol: string, what: string, unit: string, range: readonly [number, number]) =>
  numbersTaken(symbol, what, unit, range, 'firn and ice cores');

export const gasConstant = {
  kind: 'choice',
  symbol: 'R',
  what: 'gas constant that goes with the rate constants of Herron & Langway, J/mol/K',
  options: ['8.314', '8.315'],
} as const;
/** J/mol/K */
export const gasConstantNamed = (name: (typeof gasConstant.options)[number]): number =>
  (name === '8.315' ? firnConstants.gasConstantTranscribed : firnConstants.gasConstantUsual).value;
