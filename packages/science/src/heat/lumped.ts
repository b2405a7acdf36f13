import { mustLie } from '../quantity-error.ts';
import type {
  JoulesPerKilogramKelvin,
  Kelvin,
  Kilograms,
  Metres,
  Ratio,
  Seconds,
  SquareMetres,
  WattsPerMetreKelvin,
  WattsPerSquareMetreKelvin,
} from '../units.ts';

/** A body that is everywhere as warm, behind one resistance. */
export interface LumpedBody {
  readonly mass: Kilograms;
  /** Specific heat, J/kg/K. */
  readonly heatCapacity: JoulesPerKilogramKelvin;
  /** Heat that comes in per degree of difference: area over the sum of d/k and 1/h, W/K. */
  readonly conductance: number;
}

export interface Lumped {
  /** Time in which the difference falls to 1/e. */
  readonly timeConstant: Seconds;
  /** Share of the first difference that is left. */
  readonly left: (time: Seconds) => Ratio;
}

/**
 * Warming of a body without differences inside: theta = exp(-t/tau), tau = m c/UA. Right to 5 % where Bi is below 0.1;
 * inside a box it is an estimate, since what lies near the wall warms first.
 *
 * Source: textbook (from memory); common practice.
 *
 * @throws QuantityError for what is not above 0
 */
export const lumped = ({ mass, heatCapacity, conductance }: LumpedBody): Lumped => {
  mustLie('lumped body', 'mass', mass, 1e-6, 1e9, 'kg');
  // a heavy wall around little ice counts as that ice's own
  mustLie('lumped body', 'heat capacity', heatCapacity, 1, 1e8, 'J/kg/K');
  mustLie('lumped body', 'conductance', conductance, 1e-9, 1e9, 'W/K');
  const timeConstant = (mass * heatCapacity) / conductance;
  return { timeConstant, left: (time) => Math.exp(-time / timeConstant) };
};

/**
 * When a lumped body passes a limit: tau ln((T_out - T_start)/(T_out - T_limit)). 0 where it starts there, null where the
 * outside is not beyond the limit.
 *
 * @throws QuantityError for a temperature outside 50 to 400 K
 */
export const lumpedTimeTo = (
  body: LumpedBody,
  { start, outside, limit }: { readonly start: Kelvin; readonly outside: Kelvin; readonly limit: Kelvin },
): Seconds | null => {
  for (const [name, value] of Object.entries({ start, outside, limit }))
    mustLie('lumped body', `temperature (${name})`, value, 50, 400, 'K');
  const ratio = (outside - start) / (outside - limit);
  if (start >= limit) return 0;
  return ratio > 0 && outside > limit ? lumped(body).timeConstant * Math.log(ratio) : null;
};

/**
 * Heat that a wall lets through per degree, W/K: A/(d/k + 1/h).
 *
 * @param area m2
 * @param thickness m
 * @param conductivity W/m/K
 * @param film heat transfer coefficient outside, W/m2/K; without one the wall's outside is as warm as the air
 * @throws QuantityError for what is not above 0
 */
export const wallConductance = (
  area: SquareMetres,
  thickness: Metres,
  conductivity: WattsPerMetreKelvin,
  film?: WattsPerSquareMetreKelvin,
): number => {
  mustLie('wall', 'area', area, 1e-6, 1e6, 'm2');
  mustLie('wall', 'thickness', thickness, 1e-6, 100, 'm');
  mustLie('wall', 'conductivity', conductivity, 1e-4, 1e4, 'W/m/K');
  if (film !== undefined) mustLie('wall', 'heat transfer coefficient', film, 1e-3, 1e6, 'W/m2/K');
  return area / (thickness / conductivity + (film === undefined ? 0 : 1 / film));
};
