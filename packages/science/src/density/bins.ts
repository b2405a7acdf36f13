import { mustLie } from '../quantity-error.ts';
import type { KilogramsPerCubicMetre, Metres, Ratio } from '../units.ts';
import type { Shared } from './cylinder.ts';
import type { PlacedDensity } from './placed-density.ts';

/** Mean density of what was measured within one stretch of depth. */
export interface DensityBin {
  readonly from: Metres;
  readonly to: Metres;
  /** Share of the stretch that the pieces cover. */
  readonly covered: Ratio;
  readonly density: Shared<KilogramsPerCubicMetre>;
}

/**
 * Means over stretches of equal height that begin at 0, weighed by the length of each piece within: mass over volume
 * of the ice that was measured, every piece in it, flagged or not. Stretches without ice are left out.
 *
 * @throws QuantityError for a height that is not above 0
 */
export const densityBins = (pieces: readonly PlacedDensity[], height: Metres): readonly DensityBin[] => {
  mustLie('density bins', 'height', height, 1e-3, 1e5, 'm');
  const bins = new Map<
    number,
    { length: number; mass: number; variance: number; shared: Map<string, number> }
  >();
  for (const { top, bottom, density, randomSd, sharedShare, cutterSet } of pieces)
    for (let k = Math.floor(top / height); k * height < bottom; k++) {
      const part = Math.min(bottom, (k + 1) * height) - Math.max(top, k * height);
      if (!(part > 0)) continue;
      const bin = bins.get(k) ?? { length: 0, mass: 0, variance: 0, shared: new Map<string, number>() };
      bins.set(k, bin);
      bin.length += part;
      bin.mass += part * density;
      bin.variance += (part * randomSd) ** 2;
      bin.shared.set(cutterSet, (bin.shared.get(cutterSet) ?? 0) + part * density * sharedShare);
    }
  return [...bins]
    .toSorted(([a], [b]) => a - b)
    .map(([k, { length, mass, variance, shared }]) => ({
      from: k * height,
      to: (k + 1) * height,
      covered: Math.min(1, length / height),
      density: {
        value: mass / length,
        randomSd: Math.sqrt(variance) / length,
        sharedSd: Math.hypot(...shared.values()) / length,
      },
    }));
};
