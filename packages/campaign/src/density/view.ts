import {
  type CoreDensity,
  type CorePiece,
  coreDensity,
  coreWater,
  type DensityProfile,
  defaultDensityAssumptions,
  type Shared,
} from '@firnbook/science/density';
import {
  type FirnColumn,
  type FirnLayer,
  type FirnParameter,
  fitHerronLangway,
  herronLangway,
  type MeltLayer,
  type MeltShare,
  meltShare,
} from '@firnbook/science/firn';
import { iceDensity } from '@firnbook/science/ice';
import { QuantityError } from '@firnbook/science/quantity-error';
import type { DensityInputs, MeltPlace } from './inputs.ts';
import type { DensityView, ModelPoint } from './shape.ts';
import { withoutDensity } from './without.ts';

/** Melt layers: bubbly at most, so less dense than ice; and read to a millimetre or two. Common practice, no source. */
const MELT_DENSITY = 880;
const MELT_DENSITY_SD = 25;
const MELT_THICKNESS_SD = 0.0015;
/** A fit of three parameters needs more than that. */
const FEWEST_LAYERS = 8;

/**
 * Density, water equivalent and melt of a hole's core from what was measured of its pieces and where they lie: a few
 * hundred milliseconds of work for a thread that no hand waits for.
 */
export function densityView({ hole, pieces, melt: layered, site }: DensityInputs): DensityView {
  const core = tried(() => coreDensity(pieces, defaultDensityAssumptions));
  if (typeof core === 'string') return withoutDensity(hole, core);
  const water = tried(() => coreWater(core));
  const melt = tried(() => meltOf(layered, core));
  const model = tried(() => (site === null ? null : herronLangway(site)));
  const layers = core.pieces.flatMap(layerOf);
  const fit = tried(() =>
    site === null || layers.length < FEWEST_LAYERS ? null : fitHerronLangway(site, layers, fittable(layers)),
  );
  const troubles = [water, melt, model, fit].filter((one) => typeof one === 'string');
  const { profile } = core;
  const window = profile === null ? null : { from: profile.top, to: profile.bottom };
  return {
    hole,
    pieces: Object.fromEntries(core.pieces.map((piece) => [piece.id, piece])),
    profile:
      profile === null || window === null ? [] : down(window, (depth) => ({ depth, ...profile.at(depth) })),
    water: water === null || typeof water === 'string' ? [] : water.nodes,
    weighed: water === null || typeof water === 'string' ? 0 : water.weighed,
    melt: typeof melt === 'string' ? null : melt,
    model: window === null || model === null || typeof model === 'string' ? [] : curveOf(model, window),
    fit:
      window === null || fit === null || typeof fit === 'string'
        ? null
        : {
            parameters: fit.parameters,
            rms: fit.rms,
            rmsBefore: fit.rmsBefore,
            reducedChiSquare: fit.reducedChiSquare,
            converged: fit.converged,
            curve: curveOf(fit.column, window),
          },
    assumptions: core.assumptions,
    flagged: core.pieces.filter((piece) => piece.flag !== null).map((piece) => piece.id),
    trouble: troubles.length === 0 ? null : troubles.join('; '),
  };
}

/** What came of it, or what the readings lack in words. */
function tried<T>(work: () => T): T | string {
  try {
    return work();
  } catch (error) {
    if (error instanceof QuantityError) return error.message;
    throw error;
  }
}

/** Steps of a curve that is drawn or read off, metres. */
const STEP = 0.25;

interface Window {
  readonly from: number;
  readonly to: number;
}

function down<T>({ from, to }: Window, at: (depth: number) => T): readonly T[] {
  const steps = Math.max(1, Math.ceil((to - from) / STEP));
  return Array.from({ length: steps + 1 }, (_, step) => at(from + (step / steps) * (to - from)));
}

const curveOf = (column: FirnColumn, window: Window): readonly ModelPoint[] =>
  down({ from: Math.max(0, window.from), to: window.to }, (depth) => ({
    depth,
    value: column.density(depth),
  }));

/**
 * Water equivalent from the zero down to a depth, metres: between two ends of pieces or gaps in proportion to the way.
 * Null outside of what was weighed or filled.
 */
export function waterAt({ water }: Pick<DensityView, 'water'>, depth: number): Shared<number> | null {
  const at = water.findIndex((node) => node.depth >= depth);
  const [above, below] = [water[at - 1], water[at]];
  if (below === undefined || (above === undefined && below.depth > depth)) return null;
  if (above === undefined) return below;
  const share = (depth - above.depth) / Math.max(1e-12, below.depth - above.depth);
  const between = (of: keyof Shared<number>): number => above[of] + share * (below[of] - above[of]);
  return { value: between('value'), randomSd: between('randomSd'), sharedSd: between('sharedSd') };
}

/** A piece as a layer of the firn; impossible ones would bend the fit, and are left to the person who looks at them. */
function layerOf({ top, bottom, result, flag }: CorePiece): readonly FirnLayer[] {
  if (top === null || bottom === null || result === null || flag?.what === 'more than ice') return [];
  const { value, randomSd, sharedSd } = result.density;
  return [{ top, bottom, density: value, sd: Math.max(randomSd, 1), sharedShare: sharedSd / value }];
}

/** Of each stage of the model only what was cored says anything; its end by the model's convention. */
const CRITICAL = 550;

function fittable(layers: readonly FirnLayer[]): readonly FirnParameter[] {
  const above = layers.filter((one) => one.density < CRITICAL).length;
  const below = layers.length - above;
  return [
    ...(above >= FEWEST_LAYERS / 2 ? (['k0', 'surfaceDensity'] as const) : []),
    ...(below >= FEWEST_LAYERS / 2 ? (['k1'] as const) : []),
  ];
}

function meltOf(places: readonly MeltPlace[], core: CoreDensity): MeltShare | null {
  const density = Math.min(MELT_DENSITY, iceDensity(core.assumptions.temperature));
  const layers = places.map(
    ({ top, bottom }): MeltLayer => ({
      top,
      bottom,
      density,
      thicknessSd: MELT_THICKNESS_SD,
      densitySd: MELT_DENSITY_SD,
    }),
  );
  const { profile } = core;
  if (layers.length === 0 || profile === null) return null;
  const window = { from: profile.top, to: profile.bottom };
  const inside = apart(layers.filter((one) => one.bottom > window.from && one.top < window.to));
  const middle = profile.at((window.from + window.to) / 2);
  return meltShare(inside, window, bulkOf(profile, window, middle.sharedSd / middle.value));
}

/** Two readers may log one layer: what overlaps is one. */
function apart(layers: readonly MeltLayer[]): readonly MeltLayer[] {
  const merged: MeltLayer[] = [];
  for (const layer of layers.toSorted((a, b) => a.top - b.top)) {
    const last = merged.at(-1);
    if (last !== undefined && layer.top < last.bottom)
      merged[merged.length - 1] = { ...last, bottom: Math.max(last.bottom, layer.bottom) };
    else merged.push(layer);
  }
  return merged;
}

/** Mean of the profile over a window, in steps of a few centimetres; its error is mostly what all pieces share. */
function bulkOf(
  profile: DensityProfile,
  { from, to }: Window,
  sharedShare: number,
): { readonly value: number; readonly sd: number } {
  const steps = Math.max(20, Math.min(400, Math.round((to - from) / 0.25)));
  let sum = 0;
  let variance = 0;
  for (let step = 0; step < steps; step++) {
    const { value, randomSd } = profile.at(from + ((step + 0.5) / steps) * (to - from));
    sum += value;
    variance += randomSd ** 2;
  }
  const value = sum / steps;
  return { value, sd: Math.hypot(Math.sqrt(variance) / steps, sharedShare * value) };
}
