import { radarConstants } from '../constants/radar.ts';
import { universal } from '../constants/universal.ts';
import { waterDensity } from '../density/cylinder.ts';
import { mustLie, QuantityError } from '../quantity-error.ts';
import type {
  KilogramsPerCubicMetre,
  Metres,
  MetresPerSecond,
  MetresWaterEquivalent,
  Seconds,
} from '../units.ts';

const where = 'two-way travel time';
const c = universal.lightSpeed.value;
/** Index per g/cm3, so that an index times a depth is a depth and a water equivalent. */
const slope = radarConstants.kovacsSlope.value * waterDensity;

/**
 * Two-way travel time down to a depth that has a mass above it: (2/c) (z + 0.845 w). How the density lies above does not
 * matter, since the index is linear in it.
 *
 * Source: Kovacs, Gow & Morey 1995 (see `refractiveIndex`) integrated over depth.
 *
 * Validity: straight down, dry, antennas close together against the depth.
 *
 * @param depth z, 0 to 5000 m
 * @param water w, mass above, 0 to 0.95 z (ice is at most 940 kg/m3), m w.e.
 * @throws QuantityError outside
 */
export const travelTime = (depth: Metres, water: MetresWaterEquivalent): Seconds => {
  mustLie(where, 'depth', depth, 0, 5000, 'm');
  mustLie(where, 'water equivalent', water, 0, 0.95 * depth, 'm w.e.');
  return (2 / c) * (depth + slope * water);
};

/** Layers from the surface down, as two series of the same length. */
export interface RadarLayers {
  /** Metres. */
  readonly thicknesses: readonly Metres[];
  /** 0 to 940 kg/m3. */
  readonly densities: readonly KilogramsPerCubicMetre[];
}

/** A layered column as a wave sees it. */
export interface LayeredTravel {
  readonly depth: Metres;
  readonly water: MetresWaterEquivalent;
  readonly time: Seconds;
  readonly meanSpeed: MetresPerSecond;
}

const held = ({ thicknesses, densities }: RadarLayers): void => {
  if (thicknesses.length === 0 || thicknesses.length !== densities.length)
    throw new QuantityError(
      where,
      `${thicknesses.length} layers have ${densities.length} densities`,
      'a density to each layer, one layer or more',
    );
  thicknesses.forEach((thickness, i) => {
    mustLie(where, `thickness of layer ${i + 1}`, thickness, 1e-6, 5000, 'm');
    mustLie(where, `density of layer ${i + 1}`, densities[i], 0, 940, 'kg/m3');
  });
};

/**
 * Travel time through layers, and the mean speed.
 *
 * @throws QuantityError for no layer, series of different lengths, values outside
 */
export const travelThrough = (layers: RadarLayers): LayeredTravel => {
  held(layers);
  let [depth, mass] = [0, 0];
  layers.thicknesses.forEach((thickness, i) => {
    depth += thickness;
    mass += thickness * layers.densities[i];
  });
  const time = travelTime(depth, mass / waterDensity);
  return { depth, water: mass / waterDensity, time, meanSpeed: (2 * depth) / time };
};

/**
 * Depth that a travel time reaches in layers; below the last one its density holds on.
 *
 * @param time 0 to 1e-4 s
 * @throws QuantityError as `travelThrough`, and for a time outside
 */
export const depthInLayers = (layers: RadarLayers, time: Seconds): Metres => {
  held(layers);
  mustLie(where, 'travel time', time, 0, 1e-4, 's');
  const { thicknesses, densities } = layers;
  let [depth, left] = [0, time];
  for (let i = 0; i < thicknesses.length; i++) {
    const perMetre = (2 / c) * (1 + radarConstants.kovacsSlope.value * densities[i]);
    const through = perMetre * thicknesses[i];
    if (left <= through || i === thicknesses.length - 1) return depth + left / perMetre;
    depth += thicknesses[i];
    left -= through;
  }
  return depth;
};
