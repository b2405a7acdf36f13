import type { FirnSite } from '@firnbook/science/firn';
import { standing } from '../find.ts';
import { numberIn } from '../thing-view.ts';
import type { CampaignView } from '../view.ts';

/** Where nobody has measured the surface snow: common practice, no source. */
const SURFACE_DENSITY = 350;

/** The campaign's site as models of the firn take it; null where its temperature or accumulation is not known. */
export function firnSite(campaign: Pick<CampaignView, 'others'>): FirnSite | null {
  const site = standing(campaign.others.site).at(-1);
  if (site === undefined) return null;
  const [temperature, accumulation] = [numberIn(site, 'temperature'), numberIn(site, 'accumulation')];
  const surfaceDensity = numberIn(site, 'surfaceDensity') ?? SURFACE_DENSITY;
  if (temperature === null || accumulation === null || !(accumulation > 0)) return null;
  if (!(temperature < 0 && temperature > -90) || !(surfaceDensity > 50 && surfaceDensity < 900)) return null;
  return { temperature: temperature + 273.15, accumulation, surfaceDensity };
}
