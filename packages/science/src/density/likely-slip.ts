import { normalBelow, normalDensity } from '../statistics/normal.ts';
import type { Kilograms, KilogramsPerCubicMetre, Metres, Ratio } from '../units.ts';
import type { DensityAssumptions } from './assumptions.ts';
import { type PieceDensity, pieceDensity } from './piece-density.ts';
import type { CutterSet } from './pool-diameters.ts';
import { type DiameterReading, type PieceReadings, roundDiameter } from './readings.ts';

export type SlippedReading = 'mass' | 'tare' | 'length' | 'diameter';

/** A slip that would explain a density, and how likely it is against the others and against none. */
export interface DensitySlip {
  readonly reading: SlippedReading;
  /** Which of several lengths or diameters, from 0; null where all were read with the same slip. */
  readonly index: number | null;
  readonly slip: string;
  /** What the reading would have been, kg or m; null for several. */
  readonly instead: Kilograms | Metres | null;
  /** Density with that. */
  readonly density: KilogramsPerCubicMetre;
  readonly probability: Ratio;
}

/** What is known of a piece's density without weighing it. */
export interface Expectation {
  /** By its neighbours, or null where there are none. */
  readonly byProfile: { readonly value: KilogramsPerCubicMetre; readonly sd: KilogramsPerCubicMetre } | null;
  /** Typical tare of the others, where any has one. */
  readonly tare: Kilograms | null;
}

/** How often people slip in a reading (common practice, no source): all slips of one kind share their line. */
const prior = { tare: 0.004, mass: 0.003, length: 0.004, diameter: 0.004, other: 0.002 } as const;
/** Snow to ice where no neighbour says more (common practice). */
const loosest: KilogramsPerCubicMetre = 100;
/** A reading is looked at where its slips together reach this. */
const worthTelling = 0.05;

interface Candidate {
  readonly reading: SlippedReading;
  readonly index: number | null;
  readonly slip: string;
  readonly instead: number | null;
  readonly piece: PieceReadings;
}

/**
 * Which reading of a piece is most likely wrong, by comparing slips: tare not taken off, or taken off twice; mass by
 * 100 g or 1 kg; length by 1 cm, 10 cm or 1 m; diameter by 1 or 10 mm; two neighbouring digits exchanged in any.
 *
 * Posterior by Bayes' rule: prior of the kind of reading, shared by its candidates, times how well the density that
 * follows fits the neighbours (or lies between snow and ice where there are none), the diameter fits its cutter set,
 * and several lengths fit each other; against no slip at all and against something else (any density to 2,000
 * kg/m3). Neighbours' slips are not looked at together.
 *
 * @returns by falling probability, those that are worth telling
 */
export const likelySlips = (
  piece: PieceReadings,
  found: PieceDensity,
  set: CutterSet,
  expected: Expectation,
  assumed: DensityAssumptions,
): readonly DensitySlip[] => {
  const candidates = slipsOf(piece, expected);
  const counts = new Map<string, number>();
  for (const { reading } of candidates) counts.set(reading, (counts.get(reading) ?? 0) + 1);
  const fit = (readings: PieceReadings, density: number, randomSd: number, sharedSd: number) =>
    likelihood(readings, density, Math.hypot(randomSd, sharedSd), found.ice, set, expected, assumed);
  const { density } = found;
  const none =
    (1 - Object.values(prior).reduce((sum, p) => sum + p, 0)) *
    fit(piece, density.value, density.randomSd, density.sharedSd);
  // readings of a shape that fits as such readings do on average
  const shapes = piece.diameters.length + piece.lengths.length;
  const other = (prior.other / 2000) * Math.exp(-0.5 * shapes);
  let total = none + other;
  const weighed = candidates.flatMap((candidate) => {
    const result = densityWith(candidate.piece, set, assumed);
    if (result === null) return [];
    const { value, randomSd, sharedSd } = result.density;
    const weight =
      (prior[candidate.reading] / counts.get(candidate.reading)!) *
      fit(candidate.piece, value, randomSd, sharedSd);
    total += weight;
    return [{ ...candidate, density: value, weight }];
  });
  return weighed
    .map(({ reading, index, slip, instead, density: value, weight }) => ({
      reading,
      index,
      slip,
      instead,
      density: value,
      probability: weight / total,
    }))
    .filter(({ probability }) => probability >= worthTelling)
    .toSorted((a, b) => b.probability - a.probability);
};

/** Density with the readings as a slip would have them; the mean of the piece's own diameters, where it has any. */
const densityWith = (
  piece: PieceReadings,
  set: CutterSet,
  assumed: DensityAssumptions,
): PieceDensity | null => {
  const own = piece.diameters.map(roundDiameter);
  const n = own.length;
  try {
    return pieceDensity(
      piece,
      {
        value: n === 0 ? set.mean : own.reduce((sum, d) => sum + d, 0) / n,
        randomSd: n === 0 ? set.pieceSd : set.readingSd / Math.sqrt(n),
        sharedSd: set.sharedSd,
        own: 1,
        spread: null,
        isOutlying: false,
      },
      assumed,
    );
  } catch {
    // a slip that would lead to readings that no core has is no candidate
    return null;
  }
};

const likelihood = (
  piece: PieceReadings,
  density: number,
  sd: number,
  ice: number,
  set: CutterSet,
  { byProfile }: Expectation,
  assumed: DensityAssumptions,
): number => {
  const shapes = fitOfShapes(piece, set, assumed);
  if (byProfile === null) return between(density, sd, loosest, ice) * shapes;
  const apart = Math.hypot(sd, byProfile.sd);
  const byDensity = normalDensity((density - byProfile.value) / apart) / apart;
  return byDensity * between(density, sd, 0, ice) * ice * shapes;
};

/** How well diameters fit the cutter set and lengths each other; densities per metre, so that readings compare. */
const fitOfShapes = (piece: PieceReadings, set: CutterSet, assumed: DensityAssumptions): number => {
  const spread = Math.hypot(set.pieceSd, set.readingSd);
  // one reading may be off without a slip of ours: not below one in 10,000 of the best
  const floor = 1e-4;
  const diameters = piece.diameters
    .map(roundDiameter)
    .reduce((product, d) => product * Math.max(floor, Math.exp(-0.5 * ((d - set.mean) / spread) ** 2)), 1);
  const middle = piece.lengths.toSorted((a, b) => a - b)[piece.lengths.length >> 1] ?? 0;
  const lengthSd = 2 * assumed.brokenEndSd;
  const lengths = piece.lengths.reduce(
    (product, l) => product * Math.max(floor, Math.exp(-0.5 * ((l - middle) / lengthSd) ** 2)),
    1,
  );
  return diameters * lengths;
};

/** A density anywhere between two bounds, measured with an error: flat, with soft ends. */
const between = (x: number, sd: number, low: number, high: number): number =>
  (normalBelow((x - low) / sd) - normalBelow((x - high) / sd)) / (high - low);

const slipsOf = (piece: PieceReadings, { tare: typical }: Expectation): readonly Candidate[] => {
  const { gross, tare, lengths, diameters } = piece;
  const candidates: Candidate[] = [];
  const mass = (reading: 'mass' | 'tare', slip: string, instead: number, changed: Partial<PieceReadings>) => {
    if (instead >= 0) candidates.push({ reading, index: 0, slip, instead, piece: { ...piece, ...changed } });
  };
  if (gross !== undefined) {
    for (const [by, words] of [
      [0.1, '100 g'],
      [1, '1 kg'],
    ] as const)
      for (const sign of [-1, 1]) mass('mass', words, gross + sign * by, { gross: gross + sign * by });
    for (const swapped of exchanged(gross, 0.001))
      mass('mass', 'two digits exchanged', swapped, { gross: swapped });
    if (typical !== null && (tare ?? 0) === 0) mass('tare', 'tare not taken off', typical, { tare: typical });
    if (tare !== undefined && tare > 0) mass('tare', 'tare taken off twice', 0, { gross: gross + tare });
  }
  lengths.forEach((length, index) => {
    const put = (slip: string, instead: number) => {
      if (instead > 0)
        candidates.push({
          reading: 'length',
          index,
          slip,
          instead,
          piece: { ...piece, lengths: lengths.with(index, instead) },
        });
    };
    for (const [by, words] of [
      [0.01, '1 cm'],
      [0.1, '10 cm'],
      [1, '1 m'],
    ] as const)
      for (const sign of [-1, 1]) put(words, length + sign * by);
    for (const swapped of exchanged(length, 0.001)) put('two digits exchanged', swapped);
  });
  diameters.forEach((reading, index) => {
    const put = (slip: string, instead: number, changed: PieceReadings['diameters'][number]) => {
      if (instead > 0)
        candidates.push({
          reading: 'diameter',
          index,
          slip,
          instead,
          piece: { ...piece, diameters: diameters.with(index, changed) },
        });
    };
    const sides = typeof reading === 'number' ? [reading] : reading;
    sides.forEach((side, k) => {
      const changed = (instead: number) =>
        typeof reading === 'number'
          ? instead
          : k === 0
            ? ([instead, reading[1]] as const)
            : ([reading[0], instead] as const);
      for (const [by, words] of diameterSlips)
        for (const sign of [-1, 1]) put(words, side + sign * by, changed(side + sign * by));
      for (const swapped of exchanged(side, 0.0001)) put('two digits exchanged', swapped, changed(swapped));
    });
  });
  if (diameters.length > 1)
    for (const [by, words] of diameterSlips)
      for (const sign of [-1, 1])
        candidates.push({
          reading: 'diameter',
          index: null,
          slip: `${words} in all`,
          instead: null,
          piece: { ...piece, diameters: diameters.map((reading) => movedBy(reading, sign * by)) },
        });
  return candidates;
};

const diameterSlips = [
  [0.001, '1 mm'],
  [0.01, '10 mm'],
] as const;

const movedBy = (reading: DiameterReading, by: Metres): DiameterReading =>
  typeof reading === 'number' ? reading + by : [reading[0] + by, reading[1] + by];

/** The number with two neighbouring digits exchanged, written in whole steps. */
const exchanged = (value: number, step: number): readonly number[] => {
  const digits = String(Math.round(value / step));
  const others = new Set<number>();
  for (let i = 0; i + 1 < digits.length; i++) {
    if (digits[i] === digits[i + 1]) continue;
    others.add(Number(digits.slice(0, i) + digits[i + 1] + digits[i] + digits.slice(i + 2)) * step);
  }
  return [...others];
};
