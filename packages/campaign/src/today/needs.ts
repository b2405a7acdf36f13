import { standing, standingPieces, standingRuns, thingsOf } from '../find.ts';
import type { CampaignView, ConflictView, DepthView, HoleView, RunView, ThingView } from '../view.ts';

/** What waits for a person, and where it is settled. */
export type Need =
  /** Two devices, or two people, say what can't both be true. `hole` is null where it belongs to the campaign. */
  | { readonly kind: 'conflict'; readonly hole: HoleView | null; readonly conflict: ConflictView }
  /** Readings that don't fit and that nobody has confirmed. */
  | { readonly kind: 'findings'; readonly hole: HoleView; readonly count: number }
  /** Core that came up and whose pieces are not logged. */
  | { readonly kind: 'core'; readonly hole: HoleView; readonly runs: readonly RunView[] }
  /** An instrument that this campaign checks and that was not checked in the day; `last` is the newest check. */
  | { readonly kind: 'instrument'; readonly instrument: string; readonly last: ThingView }
  /** Something was measured, and no instrument was ever checked. */
  | { readonly kind: 'no instrument' }
  /** Entries that this version does not understand, and corrections whose target has not arrived. */
  | { readonly kind: 'not understood'; readonly count: number }
  | { readonly kind: 'waiting'; readonly count: number };

/** An instrument that was last checked longer ago is out of use. Common practice, no source. */
const OUT_OF_USE = 7 * 86_400_000;

/** In the order in which they should be settled. */
export function needsOf(
  campaign: CampaignView,
  depths: Readonly<Record<string, DepthView>>,
  day: { readonly from: number; readonly to: number },
): readonly Need[] {
  const holes = campaign.holes.filter((hole) => hole.withdrawn === null);
  const count = (of: (hole: HoleView) => number, own: number | undefined): number =>
    campaign.holes.reduce((sum, hole) => sum + of(hole), own ?? 0);
  const notUnderstood = count((hole) => hole.notUnderstood, campaign.notUnderstood);
  const waiting = count((hole) => hole.waiting, campaign.waiting);
  return [
    ...(campaign.conflicts ?? []).map((conflict): Need => ({ kind: 'conflict', hole: null, conflict })),
    ...holes.flatMap((hole) =>
      hole.conflicts.map((conflict): Need => ({ kind: 'conflict', hole, conflict })),
    ),
    ...holes.flatMap((hole) => findingsOf(hole, depths[hole.id])),
    ...holes.flatMap(coreOf),
    ...instrumentsOf(campaign, day),
    ...(notUnderstood > 0 ? [{ kind: 'not understood', count: notUnderstood } as const] : []),
    ...(waiting > 0 ? [{ kind: 'waiting', count: waiting } as const] : []),
  ];
}

function findingsOf(hole: HoleView, depths: DepthView | undefined): readonly Need[] {
  if (depths === undefined || depths.findings.length === 0) return [];
  const known = new Set(standing(thingsOf(hole)).map((thing) => thing.id));
  const count = depths.findings.filter((finding) => known.has(finding.which)).length;
  return count === 0 ? [] : [{ kind: 'findings', hole, count }];
}

function coreOf(hole: HoleView): readonly Need[] {
  const runs = standingRuns(hole).filter((run) => !run.nothingRecovered && standingPieces(run).length === 0);
  return runs.length === 0 ? [] : [{ kind: 'core', hole, runs }];
}

function instrumentsOf(
  campaign: CampaignView,
  { from, to }: { readonly from: number; readonly to: number },
): readonly Need[] {
  const worked = campaign.holes.some((hole) =>
    standingRuns(hole).some((run) => Date.parse(run.at) > from && Date.parse(run.at) <= to),
  );
  if (!worked) return [];
  const last = new Map<string, ThingView>();
  for (const check of standing(campaign.others['instrument check'])) {
    const instrument = check.readings.instrument?.text ?? '';
    const known = last.get(instrument);
    if (Date.parse(check.at) <= to && (known === undefined || Date.parse(check.at) >= Date.parse(known.at)))
      last.set(instrument, check);
  }
  if (last.size === 0) return [{ kind: 'no instrument' }];
  return [...last].flatMap(([instrument, check]): readonly Need[] => {
    const at = Date.parse(check.at);
    return at <= from && at > from - OUT_OF_USE ? [{ kind: 'instrument', instrument, last: check }] : [];
  });
}
