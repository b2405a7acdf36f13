import type { Metres, Ratio } from '../units.ts';

/**
 * What the adjustment takes for granted; shown with every result and stored with every version.
 * Defaults: common practice, no source.
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
  /** A break that fits holds 0 to this. */
  readonly fitGapMax: Metres;
  /** Error of an estimated loss: this plus a share of the estimate. */
  readonly lossSd: Metres;
  readonly lossShareSd: Ratio;
}

export const defaultAssumptions: DepthAssumptions = {
  lengthSdIce: 0.003,
  lengthSdFirn: 0.005,
  firnTo: 60,
  runBiasSd: 0.001,
  tapeScaleSd: 0.0004,
  readingSd: 0.007,
  readingStep: 0.01,
  tripOffsetSd: 0.01,
  cableScaleSd: 0.004,
  fillMean: 0.02,
  stubMean: 0.03,
  unsureGapMean: 0.01,
  meansKnownWithinFactor: 2,
  fitGapMax: 0.002,
  lossSd: 0.002,
  lossShareSd: 0.4,
};
