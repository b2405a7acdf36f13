import { standing } from '../find.ts';
import { textIn } from '../thing-view.ts';
import type { CampaignView, RunView, ThingView } from '../view.ts';

/** The drill as it was for a run: the set-up that the run names, else the newest that was put together before it. */
export function setupOf(run: RunView, campaign: Pick<CampaignView, 'others'>): ThingView | undefined {
  const setups = standing(campaign.others['set-up']);
  const named = textIn(run, 'setup');
  if (named !== '') return setups.find((one) => one.id === named || one.absorbed?.includes(named));
  const at = Date.parse(run.at);
  let newest: ThingView | undefined;
  for (const one of setups) {
    if (Date.parse(one.at) > at) continue;
    if (newest === undefined || Date.parse(one.at) >= Date.parse(newest.at)) newest = one;
  }
  return newest;
}
