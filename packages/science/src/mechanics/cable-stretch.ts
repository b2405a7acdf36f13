import { mustLie } from '../quantity-error.ts';
import type { Kelvin, Metres, Newtons } from '../units.ts';

const where = 'stretch of the cable';

/** A length of cable that hangs straight, with what pulls at its lower end. */
export interface HangingCable {
  /** Let out, 0 to 10,000 m. */
  readonly length: Metres;
  /** At the lower end, 0 to 1e6 N. In fluid: less its buoyancy. */
  readonly load: Newtons;
  /** The cable's own, N/m; 0 to 100. In fluid: less its buoyancy. */
  readonly weight: number;
  /** EA: force that would double its length if it went on so; 1e3 to 1e9 N. */
  readonly stiffness: Newtons;
}

/**
 * How much longer a hanging cable is than lying free: (F L + w L^2/2)/(EA).
 *
 * Source: Hooke's law summed over the length (handbooks of mechanics).
 *
 * Validity: within the cable's elastic range, a cable that has been loaded before; a new one also sets, and a lay that
 * is free to turn gives more. EA by the maker, or from a pull with a known weight.
 *
 * @returns metres
 * @throws QuantityError outside of the ranges
 */
export const elasticStretch = ({ length, load, weight, stiffness }: HangingCable): Metres => {
  mustLie(where, 'length', length, 0, 10_000, 'm');
  mustLie(where, 'load', load, 0, 1e6, 'N');
  mustLie(where, 'weight of the cable', weight, 0, 100, 'N/m');
  mustLie(where, 'stiffness EA', stiffness, 1e3, 1e9, 'N');
  return (load * length + (weight * length * length) / 2) / stiffness;
};

/**
 * How much longer a cable is than at the temperature that its counter was calibrated at: alpha L (T - T_cal).
 *
 * @param expansion alpha, -1e-4 to 1e-4 1/K (fibres of aramid shrink when they warm)
 * @param mean temperature over the length that hangs, 150 to 350 K
 * @throws QuantityError outside
 */
export const thermalStretch = (
  length: Metres,
  expansion: number,
  mean: Kelvin,
  calibrated: Kelvin,
): Metres => {
  mustLie(where, 'length', length, 0, 10_000, 'm');
  mustLie(where, 'expansion', expansion, -1e-4, 1e-4, '1/K');
  mustLie(where, 'temperature of the cable', mean, 150, 350, 'K');
  mustLie(where, 'temperature of calibration', calibrated, 150, 350, 'K');
  return expansion * length * (mean - calibrated);
};

/**
 * Depth of the drill by its counter. The counter measures cable that is not stretched yet: depth = counter + stretch -
 * slack.
 *
 * @param slack cable let out that doesn't hang straight, 0 or more, m
 * @throws QuantityError outside
 */
export const depthByCounter = (counter: Metres, stretch: Metres, slack: Metres): Metres => {
  mustLie(where, 'counter', counter, 0, 10_000, 'm');
  mustLie(where, 'stretch', stretch, -100, 100, 'm');
  mustLie(where, 'slack', slack, 0, 1000, 'm');
  return counter + stretch - slack;
};
