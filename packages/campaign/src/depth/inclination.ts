import type { InclinationStation } from '@firnbook/science/depth-scales';
import { standing } from '../find.ts';
import type { HoleView } from '../view.ts';
import { usable } from './usable.ts';

/** Standard deviations where nobody said one, degrees: common practice, no source. */
const TILT_SD = 0.3;
const AZIMUTH_SD = 5;

/**
 * What was measured of the hole's direction, in order of depth; of two measurements at one depth the later one. Empty
 * where nobody measured.
 */
export function inclinationStations(hole: HoleView): readonly InclinationStation[] {
  const byDepth = new Map<number, InclinationStation>();
  for (const one of standing(hole.others.inclination)) {
    const depth = usable(one, 'depth', 0);
    const inclination = usable(one, 'angle', 0);
    if (depth === null || inclination === null || inclination >= 90) continue;
    const azimuth = usable(one, 'azimuth', -360, 360);
    byDepth.set(depth, {
      depth,
      inclination,
      ...(azimuth === null ? {} : { azimuth, azimuthSd: AZIMUTH_SD }),
      inclinationSd: usable(one, 'sd', 1e-4, 90) ?? TILT_SD,
    });
  }
  return [...byDepth.values()].sort((a, b) => a.depth - b.depth);
}
