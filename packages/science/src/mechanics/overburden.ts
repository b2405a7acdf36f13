import { mustLie, QuantityError } from '../quantity-error.ts';
import type { KilogramsPerCubicMetre, Metres, Pascals } from '../units.ts';

const where = 'overburden pressure';

/** m/s2: gravity on the ground, anywhere on Earth. */
const heldGravity = (gravity: number) => mustLie(where, 'gravity', gravity, 9.7, 9.9, 'm/s2');

/**
 * Pressure of the ice above a depth: mean density times gravity times depth.
 *
 * @param meanDensity of everything above, 50 to 940 kg/m3
 * @param depth 0 to 5000 m
 * @param gravity m/s2
 * @throws QuantityError outside
 */
export const overburden = (meanDensity: KilogramsPerCubicMetre, depth: Metres, gravity: number): Pascals => {
  mustLie(where, 'mean density', meanDensity, 50, 940, 'kg/m3');
  mustLie(where, 'depth', depth, 0, 5000, 'm');
  heldGravity(gravity);
  return meanDensity * gravity * depth;
};

/**
 * Pressure at depths below a layered column: the masses above added up. Below the last layer, its density holds on.
 *
 * @param bottoms of the layers, rising from above 0, metres
 * @param densities one to each layer, 50 to 940 kg/m3
 * @param depths rising, m
 * @param out takes the pressures, one to each depth; nothing is allocated
 * @throws QuantityError outside, for bottoms or depths out of order
 */
export const overburdenAll = (
  bottoms: ArrayLike<Metres>,
  densities: ArrayLike<KilogramsPerCubicMetre>,
  depths: ArrayLike<Metres>,
  gravity: number,
  out: Float64Array,
): Float64Array => {
  heldGravity(gravity);
  if (bottoms.length === 0 || bottoms.length !== densities.length)
    throw new QuantityError(
      where,
      `${bottoms.length} layers have ${densities.length} densities`,
      'a density to each layer, one layer or more',
    );
  if (out.length < depths.length)
    throw new QuantityError(where, `room for ${out.length} results`, `${depths.length} or more`);
  for (let i = 0; i < bottoms.length; i++) {
    // words are made only for what is refused
    const least = i === 0 ? 0 : bottoms[i - 1];
    if (!(densities[i] >= 50 && densities[i] <= 940))
      mustLie(where, `density of layer ${i + 1}`, densities[i], 50, 940, 'kg/m3');
    if (!(bottoms[i] >= least && bottoms[i] <= 5000))
      mustLie(where, `bottom of layer ${i + 1}`, bottoms[i], least, 5000, 'm');
  }
  let [layer, mass, top] = [0, 0, 0];
  for (let i = 0; i < depths.length; i++) {
    const least = i === 0 ? 0 : depths[i - 1];
    if (!(depths[i] >= least && depths[i] <= 5000))
      mustLie(where, `depth ${i + 1}`, depths[i], least, 5000, 'm');
    while (layer < bottoms.length - 1 && bottoms[layer] < depths[i]) {
      mass += densities[layer] * (bottoms[layer] - top);
      top = bottoms[layer];
      layer++;
    }
    out[i] = gravity * (mass + densities[layer] * (depths[i] - top));
  }
  return out;
};

/**
 * Pressure of the fluid in a hole at a depth: density times gravity times the height of fluid above; 0 where the hole
 * is dry there.
 *
 * @param density of the fluid, 0 (dry) to 2000 kg/m3
 * @param level depth of its surface, 0 to 5000 m
 * @throws QuantityError outside
 */
export const fluidPressure = (
  density: KilogramsPerCubicMetre,
  level: Metres,
  depth: Metres,
  gravity: number,
): Pascals => {
  mustLie('pressure of the fluid', 'density of the fluid', density, 0, 2000, 'kg/m3');
  mustLie('pressure of the fluid', 'level of the fluid', level, 0, 5000, 'm');
  mustLie('pressure of the fluid', 'depth', depth, 0, 5000, 'm');
  heldGravity(gravity);
  return density * gravity * Math.max(0, depth - level);
};
