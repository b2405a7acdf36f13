import type { Splice } from '@firnbook/science/depth-scales';
import { isCalled, standing } from '../find.ts';
import { textIn } from '../thing-view.ts';
import type { CampaignView } from '../view.ts';
import { usable } from './usable.ts';

/** Standard deviation of an offset where nobody said one: common practice, no source. */
const OFFSET_SD = 0.05;

/** No two records of one place lie farther apart, metres. */
const FARTHEST = 1000;

/**
 * The campaign's splices between holes, pits and hand-augered tops, by the ids of these: of what a joined one turned out
 * to be. Left out where one of the two is withdrawn.
 */
export function splicesOf(campaign: Pick<CampaignView, 'others'>): readonly Splice[] {
  const tops = [...(campaign.others.pit ?? []), ...(campaign.others['hand-augered top'] ?? [])];
  return standing(campaign.others.splice).flatMap((one): readonly Splice[] => {
    const ends = ['of', 'on'].map((end) => {
      const top = tops.find((other) => isCalled(other, textIn(one, end)));
      return top === undefined ? textIn(one, end) : top.withdrawn === null ? top.id : '';
    });
    const [of, on] = ends as [string, string];
    const value = usable(one, 'offset', -FARTHEST, FARTHEST);
    if (of === '' || on === '' || of === on || value === null) return [];
    const sd = usable(one, 'sd', 1e-4) ?? OFFSET_SD;
    return [{ id: one.id, of, on, offset: { value, sd } }];
  });
}
