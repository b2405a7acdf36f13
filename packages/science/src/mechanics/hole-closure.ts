import { mustLie, QuantityError } from '../quantity-error.ts';
import type { GlenParameter, Metres, Pascals, PerSecond, Seconds } from '../units.ts';
import { glenExponent } from './glen.ts';

const where = 'hole closure, Nye 1953';

/**
 * How fast a round hole loses its radius: -(1/r) dr/dt = A (dp/n)^n, n = 3; the same for the diameter.
 *
 * Source: J. F. Nye 1953, Proc. R. Soc. A 219, 477-489, doi:10.1098/rspa.1953.0161 (from memory).
 *
 * Validity: an open hole, long against its diameter, in ice that creeps steadily (secondary creep) under the same
 * pressure from all sides. In a fresh hole primary creep comes first and is faster; firn closes by compaction too,
 * which is not in it.
 *
 * @param parameter A; 1e-28 to 1e-22 1/(s Pa3)
 * @param excess dp, pressure of the ice less that of the fluid, -5e7 to 5e7 Pa; where it is negative the hole widens
 *   and the rate is negative
 * @throws QuantityError outside
 */
export const closureRate = (parameter: GlenParameter, excess: Pascals): PerSecond => {
  mustLie(where, 'creep parameter', parameter, 1e-28, 1e-22, '1/s/Pa3');
  mustLie(where, 'pressure excess', excess, -5e7, 5e7, 'Pa');
  return parameter * cubed(excess / glenExponent);
};

/** The exponent n = 3 as products: a power of its own costs ten times as much. */
const cubed = (x: number): number => x * x * x;

/**
 * The same for many depths of a hole.
 *
 * @param out takes the rates; nothing is allocated
 * @throws QuantityError as above, for series of different lengths
 */
export const closureRateAll = (
  parameters: ArrayLike<GlenParameter>,
  excesses: ArrayLike<Pascals>,
  out: Float64Array,
): Float64Array => {
  if (parameters.length !== excesses.length || out.length < excesses.length)
    throw new QuantityError(
      where,
      `${parameters.length} creep parameters, ${excesses.length} pressures, room for ${out.length}`,
      'as many of each',
    );
  for (let i = 0; i < excesses.length; i++) {
    const [parameter, excess] = [parameters[i], excesses[i]];
    // words are made only for what is refused
    if (!(parameter >= 1e-28 && parameter <= 1e-22 && excess >= -5e7 && excess <= 5e7))
      closureRate(parameter, excess);
    out[i] = parameter * cubed(excess / glenExponent);
  }
  return out;
};

/**
 * Diameter after a time at a steady rate: D0 exp(-rate t).
 *
 * @param diameter above 0 to 10 m
 * @param time 0 or more, s
 * @throws QuantityError outside, and for a hole that would widen to more than a hundred times its diameter
 */
export const diameterAfter = (diameter: Metres, rate: PerSecond, time: Seconds): Metres => {
  mustLie(where, 'diameter', diameter, Number.MIN_VALUE, 10, 'm');
  mustLie(where, 'rate', rate, -1, 1, '1/s');
  mustLie(where, 'time', time, 0, 1e11, 's');
  const factor = Math.exp(-rate * time);
  if (factor > 100)
    throw new QuantityError(
      where,
      `the fluid would widen the hole to ${factor.toExponential(1)} times its diameter`,
      'less time or a lighter fluid: a hundred times is more than the formula can bear',
    );
  return diameter * factor;
};

/**
 * Time until a part of the diameter is lost: ln(D0/(D0 - loss))/rate.
 *
 * @param loss 0 to below the diameter, m
 * @returns seconds; null where the hole doesn't close
 * @throws QuantityError outside
 */
export const timeToLose = (diameter: Metres, loss: Metres, rate: PerSecond): Seconds | null => {
  mustLie(where, 'diameter', diameter, Number.MIN_VALUE, 10, 'm');
  mustLie(where, 'rate', rate, -1, 1, '1/s');
  if (!(loss >= 0 && loss < diameter))
    throw new QuantityError(
      where,
      `diameter lost is ${loss} m`,
      `0 m to below the diameter of ${diameter} m`,
    );
  return rate > 0 ? -Math.log1p(-loss / diameter) / rate : null;
};
