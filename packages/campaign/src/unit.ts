/** What can be measured and typed with a unit; state holds the base unit (m, kg, °C, °, A, 1/min, N, m³, s, m/s, kg/m³, 1). */
export type Dimension =
  | 'length'
  | 'mass'
  | 'temperature'
  | 'angle'
  | 'current'
  | 'rotation'
  | 'force'
  | 'volume'
  | 'duration'
  | 'speed'
  | 'density'
  | 'share';

/**
 * What turns a number in a unit into the base unit. Decimal ones are a power of ten, so that no factor rounds; the
 * others are a fraction of two numbers that are exact (only the radian's is not). `less` comes off the number first,
 * for the scales of temperature whose zero lies elsewhere; a decimal text, so that it comes off exactly.
 */
export interface Factor {
  readonly power?: number;
  readonly times?: number;
  readonly over?: number;
  readonly less?: string;
}

/**
 * Every unit a person may type, the closed list. Inch and foot: international yard and pound agreement, 1959 (1 in =
 * 25.4 mm). The rest: BIPM, The International System of Units, 9th edition (2019), tables 3, 5 and 8; the kilogram-
 * force by the standard acceleration of 9.806 65 m/s² (3rd CGPM, 1901); the knot by the nautical mile of 1852 m.
 */
export const units = {
  length: {
    m: { power: 0 },
    dm: { power: -1 },
    cm: { power: -2 },
    mm: { power: -3 },
    km: { power: 3 },
    in: { times: 254, over: 10_000 },
    ft: { times: 3048, over: 10_000 },
  },
  mass: { kg: { power: 0 }, g: { power: -3 }, mg: { power: -6 }, t: { power: 3 } },
  temperature: {
    '°C': { power: 0 },
    K: { power: 0, less: '273.15' },
    '°F': { times: 5, over: 9, less: '32' },
  },
  angle: { '°': { power: 0 }, gon: { times: 9, over: 10 }, rad: { times: 180, over: Math.PI } },
  current: { A: { power: 0 }, mA: { power: -3 } },
  rotation: { rpm: { power: 0 } },
  force: {
    N: { power: 0 },
    kN: { power: 3 },
    daN: { power: 1 },
    kgf: { times: 980_665, over: 100_000 },
  },
  volume: { l: { power: -3 }, ml: { power: -6 }, 'm³': { power: 0 }, 'cm³': { power: -6 } },
  duration: {
    s: { power: 0 },
    min: { times: 60, over: 1 },
    h: { times: 3600, over: 1 },
    d: { times: 86_400, over: 1 },
  },
  speed: {
    'm/s': { power: 0 },
    'm/min': { times: 1, over: 60 },
    'cm/s': { power: -2 },
    'km/h': { times: 1000, over: 3600 },
    kn: { times: 1852, over: 3600 },
  },
  density: { 'kg/m³': { power: 0 }, 'g/cm³': { power: 3 } },
  share: { '1': { power: 0 }, '%': { power: -2 }, '‰': { power: -3 } },
} as const satisfies Readonly<Record<Dimension, Readonly<Record<string, Factor>>>>;

export type UnitOf<D extends Dimension> = keyof (typeof units)[D] & string;

/** Other ways of writing them, without white space. */
const spellings: { readonly [D in Dimension]: Readonly<Record<string, UnitOf<D>>> } = {
  length: {
    metre: 'm',
    metres: 'm',
    meter: 'm',
    meters: 'm',
    centimetre: 'cm',
    centimetres: 'cm',
    centimeter: 'cm',
    centimeters: 'cm',
    millimetre: 'mm',
    millimetres: 'mm',
    millimeter: 'mm',
    millimeters: 'mm',
    inch: 'in',
    inches: 'in',
    foot: 'ft',
    feet: 'ft',
  },
  mass: {
    gram: 'g',
    grams: 'g',
    kilogram: 'kg',
    kilograms: 'kg',
    kilo: 'kg',
    kilos: 'kg',
    tonne: 't',
    tonnes: 't',
    // A megagram. In lower case it is a milligram, so it is told apart before case is forgotten.
    Mg: 't',
  },
  temperature: {
    C: '°C',
    degC: '°C',
    celsius: '°C',
    kelvin: 'K',
    F: '°F',
    degF: '°F',
    fahrenheit: '°F',
  },
  angle: { deg: '°', degree: '°', degrees: '°', radian: 'rad', radians: 'rad' },
  current: { amp: 'A', amps: 'A', ampere: 'A', amperes: 'A', milliampere: 'mA', milliamperes: 'mA' },
  rotation: { '/min': 'rpm', 'r/min': 'rpm', 'rev/min': 'rpm', 'u/min': 'rpm', 'min-1': 'rpm' },
  force: { newton: 'N', newtons: 'N', kilonewton: 'kN', kilonewtons: 'kN', decanewton: 'daN' },
  volume: {
    litre: 'l',
    litres: 'l',
    liter: 'l',
    liters: 'l',
    millilitre: 'ml',
    millilitres: 'ml',
    milliliter: 'ml',
    milliliters: 'ml',
    m3: 'm³',
    cm3: 'cm³',
  },
  duration: {
    sec: 's',
    second: 's',
    seconds: 's',
    minute: 'min',
    minutes: 'min',
    hr: 'h',
    hour: 'h',
    hours: 'h',
    day: 'd',
    days: 'd',
  },
  speed: { kmh: 'km/h', kt: 'kn', knot: 'kn', knots: 'kn' },
  density: { 'kg/m3': 'kg/m³', 'g/cm3': 'g/cm³', 'Mg/m3': 'g/cm³' },
  share: { percent: '%', permille: '‰' },
};

/** A unit as the list writes it, with its factor. */
export interface Unit {
  readonly unit: string;
  readonly factor: Factor;
}

const tables: ReadonlyMap<string, ReadonlyMap<string, Unit>> = new Map(
  Object.entries(units).map(([dimension, table]) => {
    const all = new Map<string, Unit>(
      Object.entries<Factor>(table).map(([unit, factor]) => [unit, { unit, factor }]),
    );
    for (const [word, unit] of Object.entries(spellings[dimension as Dimension]))
      all.set(word, all.get(unit as string)!);
    // Whoever types capitals means the same, where no other unit is written so.
    for (const [word, unit] of [...all]) if (!all.has(word.toLowerCase())) all.set(word.toLowerCase(), unit);
    return [dimension, all];
  }),
);

/** The unit that a word stands for in a dimension, as typed or in lower case; undefined where it is none. */
export function unitCalled(dimension: Dimension, word: string): Unit | undefined {
  const table = tables.get(dimension)!;
  const plain = word.replace(/ /g, '');
  return table.get(plain) ?? table.get(plain.toLowerCase());
}

/** A number in the base unit, told in another unit of its dimension. */
export function inUnit(value: number, dimension: Dimension, unit: string): number {
  const { power = 0, times = 1, over = 1, less = '0' } = unitCalled(dimension, unit)!.factor;
  const scaled = power < 0 ? value * 10 ** -power : value / 10 ** power;
  return (scaled * over) / times + Number(less);
}
