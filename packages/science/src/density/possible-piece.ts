import { iceDensity } from '../ice/properties.ts';
import type { Kelvin, Kilograms, KilogramsPerCubicMetre, Metres, MetresWaterEquivalent } from '../units.ts';
import { defaultDensityAssumptions } from './assumptions.ts';
import { coreDensity } from './core-density.ts';
import { cylinderDensity } from './cylinder.ts';

/** One piece of round core with its ends square, as the calculator on the bench asks for it. */
export interface RoundPiece {
  readonly mass: Kilograms;
  readonly diameter: Metres;
  readonly length: Metres;
  readonly temperature: Kelvin;
}

export interface RoundPieceDensity {
  readonly density: KilogramsPerCubicMetre;
  readonly waterEquivalent: MetresWaterEquivalent;
  /** Most that ice can have at the temperature (IAPWS R10-06, 1 atm), and how far the piece lies above it. */
  readonly ice: KilogramsPerCubicMetre;
  readonly excess: KilogramsPerCubicMetre;
}

/**
 * Density of a round piece without wedges and saw cuts: 4m/(pi d^2 L), see `cylinderDensity`; ice by IAPWS R10-06(2009).
 *
 * @throws QuantityError as `cylinderDensity` does, and for a temperature that ice has not
 */
export const roundPieceDensity = ({ mass, diameter, length, temperature }: RoundPiece): RoundPieceDensity => {
  const { density, waterEquivalent } = cylinderDensity({
    mass,
    length,
    diameter,
    ...{ massSd: 0, lengthSd: 0, diameterSd: 0, sharedDiameterSd: 0 },
    ...{ sawnOff: 0, sawnOffSd: 0, missing: 0, missingSd: 0 },
  });
  const ice = iceDensity(temperature);
  return {
    density: density.value,
    waterEquivalent: waterEquivalent.value,
    ice,
    excess: density.value - ice,
  };
};

/** Above what ice can have by so many standard uncertainties: impossible. */
const impossible = 3;

type Part = { readonly from: string; readonly sd: number };

/** What a bench usually brings, where nobody says (common practice): a balance, a caliper, two broken ends. */
const usualParts = ({ mass, diameter, length }: RoundPiece, density: number): readonly Part[] => {
  const { massSd, diameterSd, sharedDiameterSd, brokenEndSd } = defaultDensityAssumptions;
  return [
    { from: 'mass', sd: (density * massSd) / mass },
    { from: 'diameter', sd: (2 * density * Math.hypot(diameterSd, sharedDiameterSd)) / diameter },
    { from: 'length', sd: (density * Math.SQRT2 * brokenEndSd) / length },
  ];
};

/**
 * Whether ice can have the density of a piece, in words, and which reading to look at where it can't.
 *
 * Impossible is what lies more than three standard uncertainties above ice without bubbles. The reading: the likeliest
 * slip (`likelySlips`), else the one that makes most of the uncertainty.
 *
 * @param given parts of the standard uncertainty of the density, by reading; of a reading without one the usual is taken
 */
export const pieceVerdict = (piece: RoundPiece, given: readonly Part[]): string => {
  const { density, ice, excess } = roundPieceDensity(piece);
  const usual = usualParts(piece, density);
  const isGiven = (name: string) => given.some(({ from, sd }) => from === name && sd > 0);
  const missing = usual.filter(({ from }) => !isGiven(from));
  const parts = [...given, ...missing];
  const sd = Math.hypot(...parts.map((part) => part.sd));
  const most = parts.toSorted((a, b) => b.sd - a.sd)[0]!.from;
  const assumed =
    missing.length === 0
      ? ''
      : ` Uncertainty of ${missing.map(({ from }) => from).join(', ')} as usual on a bench, since none was given.`;
  const above = `${excess.toFixed(1)} kg/m3 above the ${ice.toFixed(1)} of ice without bubbles`;
  if (excess <= 0) return `ice can have it; the ${most} makes most of its uncertainty.${assumed}`;
  if (excess <= impossible * sd)
    return `it lies ${above}, within ${impossible} standard uncertainties (${sd.toFixed(1)} each); the ${most} makes most of the uncertainty.${assumed}`;
  return `denser than ice can be: ${above}, ${(excess / sd).toFixed(1)} standard uncertainties. ${suspect(piece, most)}${assumed}`;
};

/** The readings to take again, by how likely a slip in each is. */
const suspect = ({ mass, diameter, length, temperature }: RoundPiece, most: string): string => {
  const readings = { id: 'the piece', cutterSet: '', gross: mass, lengths: [length], diameters: [diameter] };
  const slips = coreDensity([{ ...readings, sawnEnds: 0, temperature }]).pieces[0]?.flag?.slips ?? [];
  const byReading = new Map<string, number>();
  for (const { reading, probability } of slips)
    byReading.set(reading, (byReading.get(reading) ?? 0) + probability);
  const listed = [...byReading]
    .toSorted((a, b) => b[1] - a[1])
    .map(([reading, share]) => `the ${reading} (a slip there is ${Math.round(100 * share)} % likely)`);
  return listed.length === 0
    ? `Measure the ${most} again first: it makes most of the uncertainty.`
    : `Measure again ${listed.join(', then ')}.`;
};
