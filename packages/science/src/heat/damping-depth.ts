import { mustLie } from '../quantity-error.ts';
import type { Metres, Ratio, Seconds, SquareMetresPerSecond } from '../units.ts';

/** How a wave of temperature at the surface looks at a depth. */
export interface DampedWave {
  /** Where the swing is down to 1/e. */
  readonly dampingDepth: Metres;
  /** Swing there over swing at the surface. */
  readonly amplitude: Ratio;
  /** How much later its peak comes. */
  readonly lag: Seconds;
}

/**
 * Wave of a day or a year going down: d = sqrt(2 a/omega), omega = 2 pi/P; at depth z the swing is exp(-z/d) of that
 * at the surface and comes z/(d omega) later.
 *
 * Source: H. S. Carslaw and J. C. Jaeger 1959, Conduction of Heat in Solids, 2nd edition, 2.6 (from memory).
 *
 * Validity: one material, no meltwater, no wind through the snow.
 *
 * @param diffusivity m2/s
 * @param period P, s
 * @throws QuantityError for what is not above 0 (depth: below 0)
 */
export const dampedWave = (
  diffusivity: SquareMetresPerSecond,
  period: Seconds,
  depth: Metres = 0,
): DampedWave => {
  const where = 'damping depth';
  mustLie(where, 'diffusivity', diffusivity, 1e-10, 1, 'm2/s');
  mustLie(where, 'period', period, 1, 1e13, 's');
  mustLie(where, 'depth', depth, 0, 1e4, 'm');
  const omega = (2 * Math.PI) / period;
  const dampingDepth = Math.sqrt((2 * diffusivity) / omega);
  return {
    dampingDepth,
    amplitude: Math.exp(-depth / dampingDepth),
    lag: depth / (dampingDepth * omega),
  };
};
