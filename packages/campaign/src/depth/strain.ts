import type { StrainTable } from '@firnbook/science/depth';
import { firnStrainRate, herronLangway } from '@firnbook/science/firn';
import { firnSite } from '../site/firn-site.ts';
import type { CampaignView } from '../view.ts';

/** Depths of the table, metres: closer where the firn shortens most. */
const depths = [0, 1, 2, 4, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200];

/**
 * How fast the firn of the campaign's site shortens, by the model of the site: over a season depths of the first days
 * and of the last are millimetres to centimetres apart. Null where the site's climate is not known.
 */
export function strainTable(campaign: Pick<CampaignView, 'others'>): StrainTable | null {
  const site = firnSite(campaign);
  if (site === null) return null;
  const column = herronLangway(site);
  return { depth: depths, rate: depths.map((depth) => firnStrainRate(column, depth)) };
}
