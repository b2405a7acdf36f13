import { setupOf } from '../depth/set-ups.ts';
import type { Doubted } from '../doubted.ts';
import { isCalled, standing } from '../find.ts';
import { numberIn } from '../thing-view.ts';
import type { RunView } from '../view.ts';

/** What the barrel of a run's set-up holds, metres; null where nobody said. The newest set-up where none is named. */
export function barrelOf({ campaign, thing, readings }: Doubted): number | null {
  const setups = standing(campaign.others['set-up']);
  const named = readings.setup;
  const setup =
    named !== undefined
      ? setups.find((one) => isCalled(one, named))
      : thing === null
        ? setups.at(-1)
        : setupOf(thing as RunView, campaign);
  return setup === undefined ? null : numberIn(setup, 'barrel');
}
