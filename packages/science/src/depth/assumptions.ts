import type { Metres, Ratio } from '../units.ts';

/**
 * What the adjustment takes for granted; shown with every result and stored with every version.
 * Defaults: common practice, no source, unless another is named.
 */
export interface DepthAssumptions {
  /** Standard deviation of one length on the bench, in ice and in firn. */
  readonly lengthSdIce: Metres;
  readonly lengthSdFirn: Metres;
  /** Above this depth the core counts as firn. */
  readonly firnTo: Metres;
  /** Bias per piece that all pieces of one run share. */
  readonly runBiasSd: Metres;
  readonly tapeScaleSd: Ratio;
  /** Of the weighted tape that all soundings share. */
  readonly soundingTapeScaleSd: Ratio;
  /** Counter reading before rounding to the display's last digit. */
  readonly readingSd: Metres;
  /** Step of the counter's display. */
  readonly readingStep: Metres;
  /** Offset that a run's start and end share (counter zeroed each trip). */
  readonly tripOffsetSd: Metres;
  /** Until the cable is checked against marks. */
  readonly cableScaleSd: Ratio;
  /** Means of one-sided quantities: first guess, and how many times larger or smaller it may well be. */
  readonly fillMean: Metres;
  readonly stubMean: Metres;
  readonly unsureGapMean: Metres;
  readonly meansKnownWithinFactor: Ratio;
  /** First guess of the ice lost where the core spun. */
  readonly groundGapMean: Metres;
  /** A break that fits holds 0 to this. */
  readonly fitGapMax: Metres;
  /** Error of an estimated loss: this plus a share of the estimate. */
  readonly lossSd: Metres;
  readonly lossShareSd: Ratio;
  /** A saw's cut where nobody gave its width, its standard deviation, and that of a given one. */
  readonly kerf: Metres;
  readonly kerfSd: Metres;
  readonly givenKerfSd: Metres;
  /** Of a position on the tray tape, and of a catcher's scratches. */
  readonly traySd: Metres;
  readonly catcherMarkSd: Metres;
  /** Change of the cable's scale from one metre of hole to the next (random walk); 0 for a scale that stays. */
  readonly cableScaleDriftSd: Ratio;
  /** Change of the counter's offset from run to run where it is not zeroed each trip (random walk). */
  readonly offsetDriftSd: Metres;
  /**
   * Linear expansion of ice, per kelvin: a third of the cubic one of IAPWS R10-06(2009) at -20 degrees, 1 atm
   * (1.4967e-4 per kelvin).
   */
  readonly iceExpansion: number;
}

export const defaultAssumptions: DepthAssumptions = {
  lengthSdIce: 0.004,
  lengthSdFirn: 0.006,
  firnTo: 60,
  runBiasSd: 0.001,
  tapeScaleSd: 0.0005,
  soundingTapeScaleSd: 0.0003,
  readingSd: 0.007,
  readingStep: 0.01,
  tripOffsetSd: 0.012,
  cableScaleSd: 0.004,
  fillMean: 0.02,
  stubMean: 0.03,
  unsureGapMean: 0.01,
  meansKnownWithinFactor: 2,
  groundGapMean: 0.015,
  fitGapMax: 0.002,
  lossSd: 0.002,
  lossShareSd: 0.4,
  kerf: 0.003,
  kerfSd: 0.001,
  givenKerfSd: 0.0005,
  traySd: 0.001,
  catcherMarkSd: 0.01,
  cableScaleDriftSd: 4e-5,
  offsetDriftSd: 0.005,
  iceExpansion: 4.989e-5,
};
