import { mustLie } from '../quantity-error.ts';
import type { Degrees, Metres, MetresPerSecond } from '../units.ts';

const where = 'penetration';

/**
 * Advance per turn: each cutter takes its own depth of cut, n h.
 *
 * Source: kinematics of a helix, handbooks of mechanics. Validity: cutters all alike, evenly around the head.
 *
 * @param cutters 1 to 12
 * @param cut depth of cut of one, above 0 to 0.05 m
 * @throws QuantityError outside
 */
export const pitch = (cutters: number, cut: Metres): Metres => {
  mustLie(where, 'number of cutters', cutters, 1, 12, '');
  mustLie(where, 'depth of cut', cut, 1e-6, 0.05, 'm');
  return cutters * cut;
};

/**
 * Speed of the drill through the ice: pitch times turns. Source and validity as for the pitch.
 *
 * @param perTurn pitch, above 0 to 0.1 m
 * @param turns per second, above 0 to 50
 * @throws QuantityError outside
 */
export const penetrationRate = (perTurn: Metres, turns: number): MetresPerSecond => {
  mustLie(where, 'pitch', perTurn, 1e-6, 0.1, 'm');
  mustLie(where, 'turns', turns, 1e-3, 50, '1/s');
  return perTurn * turns;
};

/**
 * Least relief angle of a cutter, so that its heel doesn't rub on the helix it has cut: atan(pitch/(pi d)).
 *
 * Source: slope of a helix, handbooks of mechanics. A least angle: ice that springs back needs more.
 *
 * @param diameter where the cutter's edge runs, 0.005 to 1 m; the inner edge, on the core, needs most
 * @throws QuantityError outside
 */
export const leastReliefAngle = (perTurn: Metres, diameter: Metres): Degrees => {
  mustLie(where, 'pitch', perTurn, 1e-6, 0.1, 'm');
  mustLie(where, 'diameter', diameter, 0.005, 1, 'm');
  return (Math.atan(perTurn / (Math.PI * diameter)) * 180) / Math.PI;
};
