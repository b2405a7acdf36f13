import { scaledErfc } from '../depth/gaussian-tail.ts';
import { mustLie } from '../quantity-error.ts';
import type {
  Metres,
  Ratio,
  Seconds,
  SquareMetresPerSecond,
  WattsPerMetreKelvin,
  WattsPerSquareMetreKelvin,
} from '../units.ts';

const where = 'heat into a half space';

const checked = (depth: Metres, time: Seconds, diffusivity: SquareMetresPerSecond): void => {
  mustLie(where, 'depth', depth, 0, 1e4, 'm');
  mustLie(where, 'time', time, 0, 1e13, 's');
  mustLie(where, 'diffusivity', diffusivity, 1e-10, 1, 'm2/s');
};

/**
 * How much of a sudden change at its surface a thick body has felt at a depth: erfc(z/(2 sqrt(a t))), 0 to 1.
 *
 * Source: H. S. Carslaw and J. C. Jaeger 1959, Conduction of Heat in Solids, 2nd edition, 2.4 (from memory).
 *
 * @param depth below the surface, m
 * @param diffusivity k/(rho c), m2/s
 * @throws QuantityError for what is below 0 or no number
 */
export const surfaceHeld = (depth: Metres, time: Seconds, diffusivity: SquareMetresPerSecond): Ratio => {
  checked(depth, time, diffusivity);
  if (time === 0) return depth === 0 ? 1 : 0;
  const a = depth / (2 * Math.sqrt(diffusivity * time));
  return Math.exp(-a * a) * scaledErfc(a);
};

/**
 * The same where the change is in the air outside, which passes heat on with a coefficient h:
 * erfc(a) - exp(h z/k + h^2 a t/k^2) erfc(a + b), a = z/(2 sqrt(a t)), b = h sqrt(a t)/k.
 *
 * The second term is e^(-a^2) erfcx(a + b), so that nothing overflows however long the time.
 *
 * Source: H. S. Carslaw and J. C. Jaeger 1959, Conduction of Heat in Solids, 2nd edition, 2.7 (from memory).
 *
 * @param film heat transfer coefficient h, W/m2/K
 * @param conductivity k, W/m/K
 * @throws QuantityError for what is below 0 or no number
 */
export const surfaceInAir = (
  depth: Metres,
  time: Seconds,
  diffusivity: SquareMetresPerSecond,
  film: WattsPerSquareMetreKelvin,
  conductivity: WattsPerMetreKelvin,
): Ratio => {
  checked(depth, time, diffusivity);
  mustLie(where, 'heat transfer coefficient', film, 0, 1e6, 'W/m2/K');
  mustLie(where, 'conductivity', conductivity, 1e-4, 1e4, 'W/m/K');
  if (time === 0) return 0;
  const root = Math.sqrt(diffusivity * time);
  const a = depth / (2 * root);
  return Math.exp(-a * a) * (scaledErfc(a) - scaledErfc(a + (film * root) / conductivity));
};
