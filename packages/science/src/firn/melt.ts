import { layerWaterEquivalent } from '../density/water-equivalent.ts';
import { mustLie, QuantityError } from '../quantity-error.ts';
import type { KilogramsPerCubicMetre, Metres, MetresWaterEquivalent } from '../units.ts';

/** Ice that melt water left in the firn. */
export interface MeltLayer {
  readonly top: Metres;
  readonly bottom: Metres;
  readonly density: KilogramsPerCubicMetre;
  /** Standard deviations of its thickness and density. */
  readonly thicknessSd: Metres;
  readonly densitySd: KilogramsPerCubicMetre;
}

export interface WithSd<Unit extends number> {
  readonly value: Unit;
  readonly sd: Unit;
}

/** How much of a stretch of core is melt layers, by both definitions, and what is left of it without them. */
export interface MeltShare {
  readonly from: Metres;
  readonly to: Metres;
  /** Percent of the length. */
  readonly byLength: WithSd<number>;
  /** Percent of the mass: what compares with melt, since ice is denser than the firn it lies in. */
  readonly byMass: WithSd<number>;
  readonly melt: WithSd<MetresWaterEquivalent>;
  readonly total: WithSd<MetresWaterEquivalent>;
  /** Density of the firn between the layers: the one that densification acts on. Null where all is ice. */
  readonly matrix: WithSd<KilogramsPerCubicMetre> | null;
}

/**
 * Melt-feature percentage of a window of depth: by length 100 sum t/L, by mass 100 sum (t rho)/(L rho_bulk); density of
 * the firn between (L rho_bulk - sum t rho)/(L - sum t).
 *
 * Source: R. M. Koerner 1977, Science 196, 15-18, doi:10.1126/science.196.4285.15 (percentage of ice in melt layers).
 * Layers that reach out of the window count with what is within; errors by JCGM 100:2008, eq. (10), all independent,
 * a layer cut by the window with the same share of its error.
 *
 * @param layers not overlapping, any order
 * @param bulk mean density of the window, layers included
 * @throws QuantityError for a window or layer that does not go down, layers that overlap, a density that ice has not
 */
export const meltShare = (
  layers: readonly MeltLayer[],
  window: { readonly from: Metres; readonly to: Metres },
  bulk: WithSd<KilogramsPerCubicMetre>,
): MeltShare => {
  const where = 'melt layers';
  const { from, to } = window;
  const length = to - from;
  if (!(length > 0)) throw new QuantityError(where, `the window is from ${from} m to ${to} m`, 'downwards');
  mustLie(where, 'bulk density', bulk.value, 20, 925, 'kg/m3');
  checkLayers(layers);
  let [thickness, mass, thicknessVariance, massVariance, matrixVariance] = [0, 0, 0, 0, 0];
  const parts = layers.flatMap((layer) => {
    const part = Math.min(layer.bottom, to) - Math.max(layer.top, from);
    return part > 0 ? [{ layer, part, share: part / (layer.bottom - layer.top) }] : [];
  });
  for (const { layer, part } of parts) {
    thickness += part;
    mass += part * layer.density;
  }
  const between = length - thickness;
  const matrix = between > 1e-9 * length ? (length * bulk.value - mass) / between : null;
  for (const { layer, part, share } of parts) {
    const t = layer.thicknessSd * share;
    thicknessVariance += t ** 2;
    massVariance += (layer.density * t) ** 2 + (part * layer.densitySd) ** 2;
    if (matrix !== null)
      matrixVariance += ((matrix - layer.density) * t) ** 2 + (part * layer.densitySd) ** 2;
  }
  const [massSd, whole] = [Math.sqrt(massVariance), length * bulk.value];
  const byMass = (100 * mass) / whole;
  return {
    from,
    to,
    byLength: { value: (100 * thickness) / length, sd: (100 * Math.sqrt(thicknessVariance)) / length },
    byMass: {
      value: byMass,
      sd: Math.hypot((100 * massSd) / whole, (byMass * bulk.sd) / bulk.value),
    },
    melt: { value: layerWaterEquivalent(1, mass), sd: layerWaterEquivalent(1, massSd) },
    total: { value: layerWaterEquivalent(length, bulk.value), sd: layerWaterEquivalent(length, bulk.sd) },
    matrix:
      matrix === null
        ? null
        : {
            value: matrix,
            sd: Math.sqrt(matrixVariance + (length * bulk.sd) ** 2) / between,
          },
  };
};

const checkLayers = (layers: readonly MeltLayer[]): void => {
  const sorted = layers.toSorted((a, b) => a.top - b.top);
  sorted.forEach(({ top, bottom, density }, i) => {
    const where = `melt layer at ${top} m`;
    if (!(bottom > top)) throw new QuantityError(where, `its bottom is at ${bottom} m`, `below ${top} m`);
    mustLie(where, 'density', density, 300, 925, 'kg/m3');
    const above = sorted[i - 1];
    if (above !== undefined && top < above.bottom - 1e-9)
      throw new QuantityError(
        where,
        `it overlaps the one above, which ends at ${above.bottom} m`,
        `${above.bottom} m or deeper`,
      );
  });
};

/**
 * Melt layers of a year as a percentage of its accumulation, 100 melt w.e./annual w.e., where both are known as water.
 *
 * Source: as `meltShare`.
 *
 * @throws QuantityError for an accumulation that is not above 0, melt below 0 or above it
 */
export const meltPercentageOfYear = (
  melt: MetresWaterEquivalent,
  accumulation: MetresWaterEquivalent,
): number => {
  mustLie('melt of a year', 'accumulation', accumulation, 1e-6, 100, 'm w.e.');
  mustLie('melt of a year', 'melt', melt, 0, accumulation, 'm w.e.');
  return (100 * melt) / accumulation;
};

/** One year of core, between two boundaries that somebody dated. */
export interface YearBounds {
  readonly year: number;
  readonly top: Metres;
  readonly bottom: Metres;
}

/**
 * Melt-feature percentage of every year: of its accumulation, 100 melt w.e./annual w.e. (`byMass`), and by length.
 *
 * @param years with boundaries that people or an age scale gave; any order
 * @param bulkOf mean density between two depths, layers included
 * @throws QuantityError as `meltShare`
 */
export const meltByYear = (
  layers: readonly MeltLayer[],
  years: readonly YearBounds[],
  bulkOf: (from: Metres, to: Metres) => WithSd<KilogramsPerCubicMetre>,
): readonly (MeltShare & { readonly year: number })[] =>
  years.map(({ year, top, bottom }) => ({
    year,
    ...meltShare(layers, { from: top, to: bottom }, bulkOf(top, bottom)),
  }));
