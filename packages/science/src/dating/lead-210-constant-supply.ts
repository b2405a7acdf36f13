import { mustLie, QuantityError } from '../quantity-error.ts';
import type { MetresWaterEquivalent, Years } from '../units.ts';
import { decayConstant } from './decay.ts';

/** A core cut into layers without gaps, from the surface down. */
export interface Lead210Layers {
  /** Boundaries: one more than layers, from 0, growing. */
  readonly boundaries: readonly MetresWaterEquivalent[];
  /** Unsupported 210Pb of each layer, mBq/kg, and its standard deviation. */
  readonly concentrations: readonly number[];
  readonly sds: readonly number[];
  /** What lies below the last boundary, mBq/m2: measured, or extended from the lowest layers. */
  readonly tail: number;
  readonly tailSd: number;
}

export interface ConstantSupply {
  /** At each boundary. */
  readonly ages: readonly Years[];
  readonly ageSds: readonly Years[];
  /** Of each layer at its middle, m w.e. a year. */
  readonly rates: readonly MetresWaterEquivalent[];
  readonly rateSds: readonly MetresWaterEquivalent[];
  /** Unsupported inventory below each boundary, mBq/m2. */
  readonly inventories: readonly number[];
  /** 210Pb that falls on the place a year, mBq/m2. */
  readonly supply: number;
}

/**
 * Ages and accumulation by unsupported 210Pb of constant rate of supply (CRS): the same 210Pb falls every year, however
 * much snow does. With A(m) the inventory below w.e. depth m: t = ln(A(0)/A(m))/lambda, rate = lambda A/C. Within a
 * layer of one concentration A is a straight line of m, so the rate at its middle takes the mean of A above and below.
 *
 * Source: P. G. Appleby and F. Oldfield 1978, Catena 5, 1-8 (from memory). 1 m w.e. is 1000 kg/m2.
 *
 * Errors by JCGM 100:2008, eq. (10): concentrations, tail and half-life, each independent, with exact derivatives; an
 * error of a concentration counts in the inventory above and below alike. Boundaries are taken as exact. Near the end of
 * the record the errors grow beyond what a first order can say: see the check by simulation.
 *
 * @throws QuantityError for layers that don't begin at 0 or don't go down, concentrations that are not above 0, lists
 *   of unequal length, a tail that is not above 0
 */
export const constantSupply = (
  layers: Lead210Layers,
  halfLife: Years,
  halfLifeSd: Years = 0,
): ConstantSupply => {
  check(layers);
  const { boundaries, concentrations, sds, tail, tailSd } = layers;
  const rate = decayConstant(halfLife);
  const n = concentrations.length;
  const masses = concentrations.map((_, i) => 1000 * (boundaries[i + 1] - boundaries[i]));
  const inventories = new Array<number>(n + 1).fill(tail);
  // variance of what lies below each boundary
  const below = new Array<number>(n + 1).fill(tailSd ** 2);
  for (let i = n - 1; i >= 0; i--) {
    inventories[i] = inventories[i + 1] + masses[i] * concentrations[i];
    below[i] = below[i + 1] + (masses[i] * sds[i]) ** 2;
  }
  const [all, variance] = [inventories[0], below[0]];
  const ages = inventories.map((a) => Math.log(all / a) / rate);
  const shareOfHalfLife = halfLifeSd / halfLife;
  return {
    ages,
    // what lies below k moves A(0) and A(k) alike, what lies above A(0) alone
    ageSds: inventories.map((a, k) =>
      Math.hypot(
        Math.sqrt((1 / all - 1 / a) ** 2 * below[k] + (variance - below[k]) / all ** 2) / rate,
        ages[k] * shareOfHalfLife,
      ),
    ),
    rates: concentrations.map((c, i) => (rate * (inventories[i] + inventories[i + 1])) / 2 / c / 1000),
    rateSds: concentrations.map((c, i) => {
      const middle = (inventories[i] + inventories[i + 1]) / 2;
      const value = (rate * middle) / c / 1000;
      // middle = what lies below + half of the layer's own: rate = lambda (below/C + mass/2)
      const share = Math.hypot(
        Math.sqrt(below[i + 1]) / middle,
        ((inventories[i + 1] / c) * sds[i]) / middle,
        shareOfHalfLife,
      );
      return value * share;
    }),
    inventories,
    supply: rate * all,
  };
};

const check = ({ boundaries, concentrations, sds, tail, tailSd }: Lead210Layers): void => {
  const where = '210Pb, constant supply';
  const n = concentrations.length;
  if (n === 0 || boundaries.length !== n + 1 || sds.length !== n)
    throw new QuantityError(
      where,
      `${boundaries.length} boundaries, ${n} concentrations, ${sds.length} standard deviations`,
      'one boundary more than concentrations, as many standard deviations',
    );
  if (boundaries[0] !== 0)
    throw new QuantityError(where, `the first boundary is at ${boundaries[0]} m w.e.`, '0, the surface');
  concentrations.forEach((c, i) => {
    const layer = `${where}, layer ${i + 1}`;
    if (!(boundaries[i + 1] > boundaries[i] && boundaries[i + 1] < 5000))
      throw new QuantityError(
        layer,
        `it is from ${boundaries[i]} to ${boundaries[i + 1]} m w.e.`,
        'downwards, to 5000 m w.e.',
      );
    if (!(c > 0 && c < 1e9))
      throw new QuantityError(layer, `its concentration is ${c} mBq/kg`, 'above 0 mBq/kg');
    mustLie(layer, 'standard deviation', sds[i], 0, 1e9, 'mBq/kg');
  });
  if (!(tail > 0 && tail < 1e15))
    throw new QuantityError(where, `the tail below the core is ${tail} mBq/m2`, 'above 0 mBq/m2');
  mustLie(where, 'standard deviation of the tail', tailSd, 0, 1e15, 'mBq/m2');
};
