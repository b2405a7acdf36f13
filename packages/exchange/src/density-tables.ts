import type { CoreDensity, DensityBin, DensityProfile, Shared, WaterScale } from '@firnbook/science/density';
import { type Cell, fixed, writeTable } from './write-table.ts';

/** Half width of a 95 % interval in standard deviations. */
const ninetyFive = 1.959964;

const three = ({ value, randomSd, sharedSd }: Shared<number>, decimals: number): readonly Cell[] =>
  [value, randomSd, sharedSd].map((number) => fixed(number, decimals));

/**
 * Density and water equivalent of every piece as CSV, random and shared standard deviations apart; flagged pieces with
 * the reading that is most likely wrong. Empty where a piece was not weighed.
 *
 * @param names run and piece as people wrote them, in the order of `core.pieces`
 */
export const writeDensities = (
  core: CoreDensity,
  names: readonly { readonly run: string; readonly piece: string }[],
): string => {
  const residuals = new Map((core.profile?.residuals ?? []).map((residual) => [residual.id, residual]));
  return writeTable(
    [
      'run',
      'piece',
      'top_m',
      'bottom_m',
      'cutter_set',
      'length_m',
      'diameter_mm',
      'density_kg_m3',
      'random_sd_kg_m3',
      'shared_sd_kg_m3',
      'we_m',
      'we_random_sd_m',
      'we_shared_sd_m',
      'ice_kg_m3',
      'expected_kg_m3',
      'off_by_sd',
      'flag',
      'reading',
      'slip',
      'instead',
      'probability',
    ],
    core.pieces.map(({ id, cutterSet, top, bottom, result, flag }, i): readonly Cell[] => {
      const others = residuals.get(id)?.byOthers ?? null;
      const slip = flag?.slips[0];
      return [
        names[i]!.run,
        names[i]!.piece,
        top === null ? null : fixed(top, 4),
        bottom === null ? null : fixed(bottom, 4),
        cutterSet,
        ...(result === null
          ? Array<null>(8).fill(null)
          : [
              fixed(result.length, 4),
              fixed(1000 * result.diameter.value, 2),
              ...three(result.density, 1),
              ...three(result.waterEquivalent, 5),
            ]),
        result === null ? null : fixed(result.ice, 1),
        others === null ? null : fixed(others.expected, 1),
        others === null ? null : fixed(others.standardised, 2),
        flag?.what ?? null,
        slip === undefined ? null : slip.reading,
        slip === undefined ? null : slip.slip,
        slip?.instead == null
          ? null
          : slip.reading === 'length' || slip.reading === 'diameter'
            ? `${fixed(1000 * slip.instead, 1)} mm`
            : `${fixed(1000 * slip.instead, 0)} g`,
        slip === undefined ? null : fixed(slip.probability, 3),
      ];
    }),
  );
};

/** The smooth profile with its 95 % band (random and shared together) every `step` metres as CSV. */
export const writeProfile = (profile: DensityProfile, step: number): string => {
  const depths: number[] = [];
  for (let k = Math.ceil(profile.top / step - 1e-9); k * step <= profile.bottom + 1e-9; k++)
    depths.push(k * step);
  return writeTable(
    ['depth_m', 'density_kg_m3', 'random_sd_kg_m3', 'shared_sd_kg_m3', 'low_95_kg_m3', 'high_95_kg_m3'],
    depths.map((depth) => {
      const at = profile.at(depth);
      const half = ninetyFive * Math.hypot(at.randomSd, at.sharedSd);
      return [fixed(depth, 3), ...three(at, 1), fixed(at.value - half, 1), fixed(at.value + half, 1)];
    }),
  );
};

/** Means over stretches of depth as CSV. */
export const writeBins = (bins: readonly DensityBin[]): string =>
  writeTable(
    ['from_m', 'to_m', 'covered', 'density_kg_m3', 'random_sd_kg_m3', 'shared_sd_kg_m3'],
    bins.map(({ from, to, covered, density }) => [
      fixed(from, 3),
      fixed(to, 3),
      fixed(covered, 3),
      ...three(density, 1),
    ]),
  );

/** Cumulative water equivalent at every end of a piece or gap as CSV. */
export const writeWater = (water: WaterScale): string =>
  writeTable(
    ['depth_m', 'we_m', 'random_sd_m', 'shared_sd_m', 'above'],
    water.nodes.map((node) => [fixed(node.depth, 4), ...three(node, 5), node.above]),
  );
