import { mustLie, QuantityError } from '../quantity-error.ts';
import { fitLinear } from '../statistics/linear-fit.ts';
import type { Metres, MetresPerSecond, Seconds } from '../units.ts';

const where = 'common midpoint';

/**
 * Two-way travel time between antennas that stand apart on a flat reflector's midpoint: sqrt(t0^2 + x^2/v^2),
 * t0 = 2 d/v.
 *
 * Source: hyperbola of normal move-out; handbooks of seismics and radar.
 *
 * Validity: one speed above the reflector. In firn the speed that the hyperbola gives is near the root mean square one
 * and the waves bend: it is read somewhat too high where antennas are far apart against the depth.
 *
 * @param depth 0 to 5000 m
 * @param speed 1e7 to 2.998e8 m/s
 * @param apart x, 0 to 10,000 m
 * @throws QuantityError outside
 */
export const moveOut = (depth: Metres, speed: MetresPerSecond, apart: Metres): Seconds => {
  mustLie(where, 'depth', depth, 0, 5000, 'm');
  mustLie(where, 'speed', speed, 1e7, 2.998e8, 'm/s');
  mustLie(where, 'distance of the antennas', apart, 0, 10_000, 'm');
  return Math.hypot(2 * depth, apart) / speed;
};

/** Speed and depth from a survey, with standard uncertainties. */
export interface MidpointFit {
  readonly speed: MetresPerSecond;
  readonly speedSd: MetresPerSecond;
  readonly depth: Metres;
  readonly depthSd: Metres;
  /** Travel time straight down. */
  readonly time: Seconds;
  readonly timeSd: Seconds;
  /** Standard deviation of a travel time about the hyperbola. */
  readonly scatter: Seconds;
}

/**
 * Fit of the hyperbola: a straight line t^2 = t0^2 + x^2/v^2 by least squares. Times are equally good, so that their
 * squares have standard deviations of 2 t times theirs, which the scatter of the residuals gives.
 *
 * @param apart distances of the antennas, three or more, not all the same, m
 * @param times one to each, above 0 to 1e-4 s
 * @throws QuantityError for fewer, and where times don't grow with distance
 */
export const fitMidpoint = (apart: readonly Metres[], times: readonly Seconds[]): MidpointFit => {
  const n = times.length;
  if (n < 3 || n !== apart.length)
    throw new QuantityError(
      where,
      `${apart.length} distances have ${n} times`,
      'a time to each, three or more',
    );
  for (let i = 0; i < n; i++) {
    mustLie(where, `distance ${i + 1}`, apart[i], 0, 10_000, 'm');
    mustLie(where, `time ${i + 1}`, times[i], 1e-12, 1e-4, 's');
  }
  // in units of the largest of each, so that squares of times lose no digits beside those of distances
  const [width, unit] = [Math.max(...apart), Math.max(...times)];
  if (apart.every((one) => one === apart[0]))
    throw new QuantityError(where, 'all distances are the same', 'distances that differ');
  const { coefficients, covariance, chiSquare, degrees } = fitLinear(
    apart.map((one) => [1, (one / width) ** 2]),
    times.map((time) => (time / unit) ** 2),
    { sd: times.map((time) => (2 * time) / unit), covariance: 'scaled' },
  );
  const [start, slope] = coefficients;
  if (!(slope > 0 && start > 0))
    throw new QuantityError(
      where,
      'the times are on no hyperbola over these distances',
      'times that grow with the distance as of a reflector below',
    );
  const [[startVariance, both], [, slopeVariance]] = covariance;
  const speed = width / (unit * Math.sqrt(slope));
  const depth = (width * Math.sqrt(start / slope)) / 2;
  // d^2 goes with start/slope: its relative variance is a quarter of that of the quotient
  const quotient = startVariance / start ** 2 + slopeVariance / slope ** 2 - (2 * both) / (start * slope);
  return {
    speed,
    speedSd: (speed * Math.sqrt(slopeVariance)) / (2 * slope),
    depth,
    depthSd: (depth * Math.sqrt(Math.max(0, quotient))) / 2,
    time: unit * Math.sqrt(start),
    timeSd: (unit * Math.sqrt(startVariance)) / (2 * Math.sqrt(start)),
    scatter: unit * Math.sqrt(chiSquare / degrees),
  };
};
