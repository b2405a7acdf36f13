import type { Random } from '../../random/index.ts';
import type { Conditions } from './conditions.ts';
import { between, gamma2, logNormal } from './draws.ts';
import type { SeasonPlan } from './plan.ts';

/** What one trip of the drill really did. Depths in metres. */
export interface Trip {
  readonly id: string;
  /** What lay on the bottom when it began. */
  readonly fill: number;
  /** Bottom of the hole after it. */
  readonly bottom: number;
  /** Where the core that it brought lay; absent where it brought nothing. */
  readonly core?: { readonly top: number; readonly bottom: number };
  /** Ice left standing after it. */
  readonly stub: number;
}

/** Length of core that the barrel holds, and the advance with which core left behind is fetched. */
export const BARREL = 1.35;
const SPARE = 0.05;
const FETCH = 0.05;
/** Snow from the wall or a piece of core on the bottom; core that slipped from the catcher and lies loose. */
const FALLEN_SHARE = 0.015;
const LOOSE_SHARE = 0.3;

const fillOf = (random: Random, c: Conditions): number => {
  const chips = c.fillIsLogNormal
    ? logNormal(random, c.fillMean / Math.exp(0.32), 0.8)
    : gamma2(random, c.fillMean);
  return random.uniform() < FALLEN_SHARE ? chips + between(random, 0.05, 0.3) : chips;
};

/** Drills the hole: how far each run went, what it touched, what it brought and what it left. */
export const drillHole = (random: Random, plan: SeasonPlan, c: Conditions): Trip[] => {
  const trips: Trip[] = [];
  let bottom = 0;
  let cored = 0;
  let loose = 0;
  for (let r = 1; r <= plan.runs; r++) {
    const fill = fillOf(random, c) + loose;
    // a driller who knows that core was left behind goes no further than the barrel holds
    const room = BARREL - SPARE - (bottom - cored);
    bottom += Math.min(between(random, plan.runFrom, plan.runTo), Math.max(FETCH, room));
    // the next run must be able to fetch what this one leaves
    const canLeave = r < plan.runs && bottom - cored < BARREL - 3 * SPARE && trips.at(-1)?.core !== undefined;
    const isEmpty = canLeave && random.uniform() < plan.emptyShare;
    loose = isEmpty && random.uniform() < LOOSE_SHARE ? between(random, 0, 0.3) : 0;
    const usual = gamma2(random, c.stubMean);
    const left = random.uniform() < plan.longStubShare ? between(random, 0.05, 0.5) : usual;
    const stub = isEmpty ? bottom - cored : Math.min(left, (bottom - cored) / 2);
    trips.push({
      id: String(r),
      fill,
      bottom,
      stub,
      ...(isEmpty ? {} : { core: { top: cored, bottom: bottom - stub } }),
    });
    if (!isEmpty) cored = bottom - stub;
  }
  return trips;
};
