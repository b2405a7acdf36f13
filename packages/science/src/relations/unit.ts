import { QuantityError } from '../quantity-error.ts';

/** Powers of length, mass, time, temperature, amount, equivalents, current, angle. */
type Dimension = readonly [number, number, number, number, number, number, number, number];

interface Unit {
  /** How many coherent SI units one of it is. */
  readonly factor: number;
  readonly dimension: Dimension;
  /** Added after the factor: degrees Celsius alone, where they stand alone. */
  readonly offset: number;
}

const none: Dimension = [0, 0, 0, 0, 0, 0, 0, 0];
const of = (
  dimension: Partial<Record<'L' | 'M' | 'T' | 'K' | 'N' | 'E' | 'I' | 'angle', number>>,
): Dimension => [
  dimension.L ?? 0,
  dimension.M ?? 0,
  dimension.T ?? 0,
  dimension.K ?? 0,
  dimension.N ?? 0,
  dimension.E ?? 0,
  dimension.I ?? 0,
  dimension.angle ?? 0,
];

const length = of({ L: 1 });
const mass = of({ M: 1 });
const time = of({ T: 1 });
const force = of({ L: 1, M: 1, T: -2 });
const pressure = of({ L: -1, M: 1, T: -2 });
const energy = of({ L: 2, M: 1, T: -2 });
const power = of({ L: 2, M: 1, T: -3 });
/** Metres of water are a mass on an area, so that metres of ice or snow are not taken for them. */
const water = of({ L: -2, M: 1 });

/**
 * The closed table of units, by UCUM code where UCUM has one (`a` is 365.25 days). UCUM's m[H2O] is a pressure, so
 * metres of water equivalent stand under the trade's own writing.
 *
 * Source: UCUM 2.2, ucum-essence.xml (the years, the bracketed parts); SI brochure, 9th edition (from memory).
 */
const table: Readonly<Record<string, readonly [factor: number, dimension: Dimension]>> = {
  '1': [1, none],
  '%': [0.01, none],
  '[ppth]': [1e-3, none],
  '[ppm]': [1e-6, none],
  '[ppb]': [1e-9, none],
  km: [1000, length],
  m: [1, length],
  cm: [0.01, length],
  mm: [1e-3, length],
  um: [1e-6, length],
  nm: [1e-9, length],
  l: [1e-3, of({ L: 3 })],
  ml: [1e-6, of({ L: 3 })],
  t: [1000, mass],
  kg: [1, mass],
  g: [1e-3, mass],
  mg: [1e-6, mass],
  ug: [1e-9, mass],
  ng: [1e-12, mass],
  Tg: [1e9, mass],
  s: [1, time],
  us: [1e-6, time],
  ns: [1e-9, time],
  min: [60, time],
  h: [3600, time],
  d: [86_400, time],
  wk: [604_800, time],
  mo: [31_557_600 / 12, time],
  a: [31_557_600, time],
  ka: [31_557_600e3, time],
  a_t: [365.24219 * 86_400, time],
  a_g: [365.2425 * 86_400, time],
  K: [1, of({ K: 1 })],
  Cel: [1, of({ K: 1 })],
  Hz: [1, of({ T: -1 })],
  Bq: [1, of({ T: -1 })],
  mBq: [1e-3, of({ T: -1 })],
  N: [1, force],
  kN: [1000, force],
  Pa: [1, pressure],
  hPa: [100, pressure],
  kPa: [1000, pressure],
  MPa: [1e6, pressure],
  GPa: [1e9, pressure],
  bar: [1e5, pressure],
  J: [1, energy],
  kJ: [1000, energy],
  MJ: [1e6, energy],
  W: [1, power],
  kW: [1000, power],
  mol: [1, of({ N: 1 })],
  mmol: [1e-3, of({ N: 1 })],
  umol: [1e-6, of({ N: 1 })],
  eq: [1, of({ E: 1 })],
  meq: [1e-3, of({ E: 1 })],
  ueq: [1e-6, of({ E: 1 })],
  A: [1, of({ I: 1 })],
  mA: [1e-3, of({ I: 1 })],
  V: [1, of({ L: 2, M: 1, T: -3, I: -1 })],
  Ohm: [1, of({ L: 2, M: 1, T: -3, I: -2 })],
  rad: [1, of({ angle: 1 })],
  deg: [Math.PI / 180, of({ angle: 1 })],
  mWE: [1000, water],
  cmWE: [10, water],
  mmWE: [1, water],
};

const spelled: readonly (readonly [RegExp, string])[] = [
  [/[µμ]/g, 'u'],
  [/°C|degC|℃/g, 'Cel'],
  [/°/g, 'deg'],
  [/‰/g, '[ppth]'],
  [/per meg/g, '[ppm]'],
  [/²/g, '2'],
  [/³/g, '3'],
  [/Ω/g, 'Ohm'],
  [/\b(mm|cm|m) ?w\.? ?e\.?(?![a-z])/g, '$1WE'],
  [/\b(?:yr|year|years|y)\b/g, 'a'],
  [/\b(?:days?)\b/g, 'd'],
  [/\b(?:hours?|hr)\b/g, 'h'],
  [/[·*]/g, '.'],
];

/** How units of a person's hand become codes of the table. */
const codeOf = (text: string): string =>
  spelled.reduce((code, [from, to]) => code.replace(from, to), text.trim()).replace(/\s+/g, '');

const term = /^(\[?[A-Za-z%]+(?:_[a-z])?\]?|1)(-?\d)?$/;

/**
 * Reads a unit: codes joined by `.` and `/` (everything after a stroke divides), each with an exponent of one digit.
 *
 * @throws QuantityError for a code that the table has not
 */
export const unitOf = (text: string, where = 'unit'): Unit => {
  const code = codeOf(text) === '' ? '1' : codeOf(text);
  const [above = '', ...below] = code.split('/');
  const terms = [
    ...above.split('.').map((one) => [one, 1] as const),
    ...below.flatMap((part) => part.split('.')).map((one) => [one, -1] as const),
  ];
  let factor = 1;
  const dimension = [...none];
  for (const [one, sign] of terms) {
    const [, name = '', exponent] = term.exec(one) ?? [];
    const entry = Object.hasOwn(table, name) ? table[name] : undefined;
    if (entry === undefined)
      throw new QuantityError(
        where,
        one === '' ? `"${text}" is no unit` : `there is no unit "${one}" here`,
        Object.keys(table)
          .map((known) => known.replace(/WE$/, ' w.e.'))
          .join(' '),
      );
    const power = sign * Number(exponent ?? 1);
    factor *= entry[0] ** power;
    for (let i = 0; i < dimension.length; i++) dimension[i]! += power * entry[1][i]!;
  }
  return { factor, dimension: dimension as unknown as Dimension, offset: code === 'Cel' ? 273.15 : 0 };
};

const kinds: readonly (readonly [Dimension, string])[] = [
  [none, 'a pure number'],
  [length, 'a length'],
  [mass, 'a mass'],
  [time, 'a time'],
  [of({ K: 1 }), 'a temperature'],
  [pressure, 'a pressure'],
  [force, 'a force'],
  [energy, 'an energy'],
  [power, 'a power'],
  [water, 'a mass on an area (m w.e.)'],
  [of({ L: -2, M: 1, T: -1 }), 'a mass on an area in a time (m w.e./a)'],
  [of({ L: -3, M: 1 }), 'a density'],
  [of({ L: 1, T: -1 }), 'a speed'],
  [of({ angle: 1 }), 'an angle'],
];

const same = (one: Dimension, other: Dimension): boolean => one.every((power, i) => power === other[i]);
const kindOf = (dimension: Dimension): string =>
  kinds.find(([known]) => same(known, dimension))?.[1] ?? 'something else';

/**
 * A number in another unit of the same kind.
 *
 * @param difference whether it is a difference or an uncertainty, which no zero of a scale shifts
 * @throws QuantityError where the units are not of one kind
 */
export const convert = (
  value: number,
  from: string,
  to: string,
  where = 'unit',
  difference = false,
): number => {
  if (codeOf(from) === codeOf(to)) return value;
  const [a, b] = [unitOf(from, where), unitOf(to, where)];
  if (!same(a.dimension, b.dimension))
    throw new QuantityError(
      where,
      `"${from}" is ${kindOf(a.dimension)}`,
      `${kindOf(b.dimension)}, for example in ${to === '1' || to === '' ? 'no unit' : to}`,
    );
  if (difference) return (value * a.factor) / b.factor;
  return (value * a.factor + a.offset - b.offset) / b.factor;
};
