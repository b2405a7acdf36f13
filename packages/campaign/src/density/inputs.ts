import type { PieceReadings } from '@firnbook/science/density';
import type { FirnSite } from '@firnbook/science/firn';
import { featurePlace } from '../core/feature-place.ts';
import { standing } from '../find.ts';
import { firnSite } from '../site/firn-site.ts';
import { textIn } from '../thing-view.ts';
import type { CampaignView, DepthView, HoleView } from '../view.ts';
import { placeOf } from './place.ts';
import { densityReadings } from './readings.ts';

/** A melt layer where it lies, metres. */
export interface MeltPlace {
  readonly top: number;
  readonly bottom: number;
}

/** All that a hole's density view is made of: plain and small, so that another thread can be given it. */
export interface DensityInputs {
  readonly hole: string;
  readonly pieces: readonly PieceReadings[];
  /** In the order of logging; two readers may have logged one layer. */
  readonly melt: readonly MeltPlace[];
  /** Null where the site's temperature or accumulation is not known. */
  readonly site: FirnSite | null;
}

/** @param depths null while the hole is not solved: nothing then has a place */
export function densityInputs(
  hole: HoleView,
  campaign: Pick<CampaignView, 'others'>,
  depths: DepthView | null,
): DensityInputs {
  return {
    hole: hole.id,
    pieces: densityReadings(hole, campaign, depths),
    melt: meltPlaces(hole, depths),
    site: firnSite(campaign),
  };
}

function meltPlaces(hole: HoleView, depths: DepthView | null): readonly MeltPlace[] {
  const layers = standing(hole.others.feature).filter((one) => textIn(one, 'what') === 'melt layer');
  if (layers.length === 0 || depths === null) return [];
  const pieces = new Map(
    hole.runs.flatMap(({ pieces: own }) =>
      own.flatMap(({ id, absorbed = [] }) => [id, ...absorbed].map((one) => [one, id] as const)),
    ),
  );
  return layers.flatMap((feature): readonly MeltPlace[] => {
    const piece = textIn(feature, 'piece');
    const place = placeOf(depths, pieces.get(piece) ?? piece);
    if (place === undefined) return [];
    const layer = featurePlace(feature, { top: place.top.value, bottom: place.bottom.value });
    // Without a thickness, or outside of its piece, there is nothing to weigh.
    return layer !== null && layer.bottom > layer.top ? [layer] : [];
  });
}
