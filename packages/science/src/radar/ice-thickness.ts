import { mustLie } from '../quantity-error.ts';
import type { Metres, MetresPerSecond, Seconds } from '../units.ts';

const where = 'thickness by radar';

/**
 * Thickness from a two-way travel time: v t/2 + firn correction, the speed that of ice.
 *
 * Source: common practice of radio-echo sounding.
 *
 * @param time 0 to 1e-4 s
 * @param speed 1.6e8 to 2.998e8 m/s
 * @param correction how much deeper the firn makes it, 0 to 60 m (see `firnCorrection`)
 * @throws QuantityError outside
 */
export const thickness = (time: Seconds, speed: MetresPerSecond, correction: Metres): Metres => {
  mustLie(where, 'travel time', time, 0, 1e-4, 's');
  mustLie(where, 'speed', speed, 1.6e8, 2.998e8, 'm/s');
  mustLie(where, 'firn correction', correction, 0, 60, 'm');
  return (speed * time) / 2 + correction;
};

/**
 * What the firn adds to a depth that was reckoned with the speed in ice: true depth less v t/2.
 *
 * @param depth known, 0 to 5000 m
 * @param time to that depth, s
 * @throws QuantityError outside
 */
export const firnCorrection = (depth: Metres, time: Seconds, speed: MetresPerSecond): Metres => {
  mustLie(where, 'depth', depth, 0, 5000, 'm');
  return depth - thickness(time, speed, 0);
};
