import type { Kelvin, Kilograms, Metres, Ratio } from '../units.ts';

/** What is taken for granted about the readings; part of every result. Common practice, no source. */
export interface DensityAssumptions {
  /** Standard deviation of one weighing. */
  readonly massSd: Kilograms;
  /** Standard deviation of a tare. */
  readonly tareSd: Kilograms;
  /** What an end adds to the standard deviation of one length reading. */
  readonly sawnEndSd: Metres;
  readonly brokenEndSd: Metres;
  /** Standard deviation of one diameter reading within a piece, before the readings themselves say. */
  readonly diameterSd: Metres;
  /** Of the true diameters between pieces of one cutter set, before the readings say. */
  readonly pieceDiameterSd: Metres;
  /** How many readings the two first guesses are worth. */
  readonly guessWorth: number;
  /** Error that all diameters of a cutter set share (caliper, pressing on firn, cutters out of round). */
  readonly sharedDiameterSd: Metres;
  /** Standard deviation of the volume of a missing wedge, as a share of it. */
  readonly wedgeSdShare: Ratio;
  /** Standard deviation of what was sawn off. */
  readonly sawnOffSd: Metres;
  /** Of the ice, where none was measured. */
  readonly temperature: Kelvin;
}

export const defaultDensityAssumptions: DensityAssumptions = {
  massSd: 0.005,
  tareSd: 0.002,
  sawnEndSd: 0.0007,
  brokenEndSd: 0.002,
  diameterSd: 0.0003,
  pieceDiameterSd: 0.0003,
  guessWorth: 4,
  sharedDiameterSd: 0.0002,
  wedgeSdShare: 0.25,
  sawnOffSd: 0.001,
  temperature: 258.15,
};
