import type { Metres } from '../units.ts';
import type { Slip } from './solution.ts';

/**
 * How often each slip happens, per reading (per run for a zero, per break for lost ice). Common practice, no source:
 * once in some hundred readings of cold fingers; high rather than low, since a false alarm costs one
 * more look at ice that still lies on the bench.
 */
export const slipRates: { readonly [slip in Slip]: number } = {
  '10 cm': 4e-3,
  '1 m': 1.5e-3,
  'swapped digits': 1.5e-3,
  'no known slip': 1e-3,
  'missing piece': 4e-3,
  'doubled piece': 1e-3,
  'zero changed': 1e-3,
  'lost ice not logged': 4e-3,
  'run attributed wrongly': 2e-4,
};

/** A smaller exchange drowns in the readings' own errors. */
const LEAST_SWAP: Metres = 0.03;

/** Two neighbouring digits exchanged: what the reading may have been. Metres, to the step of the display. */
const swapped = (reading: Metres, decimals: number): Metres[] => {
  const text = Math.abs(reading).toFixed(decimals);
  const point = text.indexOf('.');
  const places = [...text].map((_, i) => i).filter((i) => i !== point);
  const out: Metres[] = [];
  for (let n = 0; n + 1 < places.length; n++) {
    const i = places[n];
    const j = places[n + 1];
    if (text[i] === text[j]) continue;
    const digits = [...text];
    digits[i] = text[j];
    digits[j] = text[i];
    const value = Number(digits.join('')) * Math.sign(reading);
    if (Math.abs(value - reading) >= LEAST_SWAP) out.push(value);
  }
  return out;
};

/** A slip that a reading may hold: what was written less what should have been. */
export interface PossibleSlip {
  readonly slip: Slip;
  readonly size: Metres;
  readonly rate: number;
}

/**
 * Named slips of one reading.
 *
 * @param decimals digits after the point in which it was written, metres
 * @param least what should have been written is not below this
 */
export const slipsOf = (reading: Metres, decimals: number, least: Metres): PossibleSlip[] => {
  const out: PossibleSlip[] = [];
  const add = (slip: Slip, size: Metres, rate: number) => {
    if (reading - size >= least) out.push({ slip, size, rate });
  };
  for (const sign of [-1, 1]) {
    add('10 cm', sign * 0.1, slipRates['10 cm'] / 2);
    add('1 m', sign, slipRates['1 m'] / 2);
  }
  const exchanged = swapped(reading, decimals);
  for (const value of exchanged)
    add('swapped digits', reading - value, slipRates['swapped digits'] / exchanged.length);
  return out;
};

/** Two lengths of one piece, measured twice, differ by less than this. */
export const SAME_LENGTH: Metres = 0.012;
