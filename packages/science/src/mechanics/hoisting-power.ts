import { mustLie } from '../quantity-error.ts';
import type { Kilograms, MetresPerSecond, Ratio, Watts } from '../units.ts';

/**
 * Power that a winch takes up to lift at a steady speed: m g v/efficiency.
 *
 * Source: work over time, handbooks of mechanics. Validity: nothing that speeds up or brakes, no friction in the hole.
 *
 * @param mass of all that hangs (drill, core, chips, cable), 0 to 1e5 kg
 * @param speed 0 to 20 m/s
 * @param efficiency from what is paid for to the drum, 0.01 to 1
 * @param gravity 9.7 to 9.9 m/s2
 * @throws QuantityError outside
 */
export const hoistingPower = (
  mass: Kilograms,
  speed: MetresPerSecond,
  efficiency: Ratio,
  gravity: number,
): Watts => {
  mustLie('hoisting', 'mass', mass, 0, 1e5, 'kg');
  mustLie('hoisting', 'speed', speed, 0, 20, 'm/s');
  mustLie('hoisting', 'efficiency', efficiency, 0.01, 1, '');
  mustLie('hoisting', 'gravity', gravity, 9.7, 9.9, 'm/s2');
  return (mass * gravity * speed) / efficiency;
};
