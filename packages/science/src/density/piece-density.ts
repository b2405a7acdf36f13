import { iceDensity } from '../ice/properties.ts';
import { mustLie, QuantityError } from '../quantity-error.ts';
import type { KilogramsPerCubicMetre, Metres } from '../units.ts';
import type { DensityAssumptions } from './assumptions.ts';
import { type CylinderResult, cylinderDensity } from './cylinder.ts';
import type { PieceDiameter } from './pool-diameters.ts';
import type { PieceReadings } from './readings.ts';
import { wedgeVolume } from './wedge.ts';

/** Density and water equivalent of one piece. */
export interface PieceDensity extends CylinderResult {
  readonly length: Metres;
  readonly lengthSd: Metres;
  readonly diameter: PieceDiameter;
  /** Of ice without bubbles at the piece's temperature and 1 atm (IAPWS R10-06): the most there can be. */
  readonly ice: KilogramsPerCubicMetre;
}

/** What a piece of core can measure, metres and kilograms: bounds against units mixed up (common practice). */
export const pieceBounds = { length: [0.005, 6], diameter: [0.02, 0.3], mass: [0.001, 100] } as const;

/**
 * Density of one piece from its mass less tare, its mean length, its pooled diameter, what was sawn off and what is
 * missing; errors propagated by `cylinderDensity`.
 *
 * Length: mean of the readings. Each has the standard deviation of its two ends (sawn, broken); where there are
 * several, their own spread counts too, as `guessWorth` readings against n - 1. The diameter's shared part is kept
 * apart: it is the same for every piece of the cutter set.
 *
 * @returns null where the piece was not weighed, has no length, or its cutter set no diameter
 * @throws QuantityError for readings that no core has: names the piece, the reading and the range
 */
export const pieceDensity = (
  piece: PieceReadings,
  diameter: PieceDiameter | null,
  assumed: DensityAssumptions,
): PieceDensity | null => {
  checkReadings(piece);
  const { gross, lengths } = piece;
  if (gross === undefined || lengths.length === 0 || diameter === null) return null;
  const mass = gross - (piece.tare ?? 0);
  const { mean: length, sd: lengthSd } = meanLength(piece, assumed);
  const where = `piece ${piece.id}`;
  const sawnOff = piece.sawnOff ?? 0;
  if (sawnOff >= length)
    throw new QuantityError(where, `${sawnOff} m were sawn off ${length} m`, `less than its length`);
  const volumes = (piece.wedges ?? []).map((wedge) => wedgeVolume(wedge, diameter.value, where));
  const whole = (Math.PI / 4) * diameter.value ** 2 * (length - sawnOff);
  // a judged share is one more wedge, as badly known as the others
  if (piece.missingShare !== undefined) volumes.push(piece.missingShare * whole);
  const missing = volumes.reduce((sum, volume) => sum + volume, 0);
  if (missing >= whole)
    throw new QuantityError(where, `missing wedges hold ${missing} m3`, `less than the piece's ${whole} m3`);
  return {
    ...cylinderDensity({
      mass,
      massSd: piece.tare === undefined ? assumed.massSd : Math.hypot(assumed.massSd, assumed.tareSd),
      length,
      lengthSd,
      diameter: diameter.value,
      diameterSd: diameter.randomSd,
      sharedDiameterSd: diameter.sharedSd,
      sawnOff,
      sawnOffSd: sawnOff === 0 ? 0 : assumed.sawnOffSd,
      missing,
      missingSd: assumed.wedgeSdShare * Math.hypot(...volumes),
    }),
    length,
    lengthSd,
    diameter,
    ice: iceDensity(piece.temperature ?? assumed.temperature),
  };
};

/** @throws QuantityError */
const checkReadings = (piece: PieceReadings): void => {
  const where = `piece ${piece.id}`;
  for (const length of piece.lengths) mustLie(where, 'length', length, ...pieceBounds.length, 'm');
  for (const reading of piece.diameters)
    for (const diameter of typeof reading === 'number' ? [reading] : reading)
      mustLie(where, 'diameter', diameter, ...pieceBounds.diameter, 'm');
  if (piece.missingShare !== undefined) mustLie(where, 'missing share', piece.missingShare, 0, 0.95, '');
  if (piece.gross === undefined) return;
  mustLie(where, 'mass', piece.gross, ...pieceBounds.mass, 'kg');
  if (piece.tare === undefined) return;
  mustLie(where, 'tare', piece.tare, 0, pieceBounds.mass[1], 'kg');
  if (piece.tare >= piece.gross)
    throw new QuantityError(where, `the tare is ${piece.tare} kg of ${piece.gross} kg`, 'less than the mass');
};

const meanLength = ({ lengths, sawnEnds }: PieceReadings, a: DensityAssumptions) => {
  const n = lengths.length;
  const mean = lengths.reduce((sum, length) => sum + length, 0) / n;
  const guess = Math.sqrt(sawnEnds * a.sawnEndSd ** 2 + (2 - sawnEnds) * a.brokenEndSd ** 2);
  const squares = lengths.reduce((sum, length) => sum + (length - mean) ** 2, 0);
  const variance = (a.guessWorth * guess ** 2 + squares) / (a.guessWorth + n - 1);
  return { mean, sd: Math.sqrt(variance / n) };
};
