import type { CampaignView, HoleView, ThingView } from '@firnbook/campaign';

/** What the book holds that a question can offer, so that nobody has to type it. */

/** Standing things of a kind, oldest first; those of one hole where the kind belongs to holes. */
export function thingsOfKind(
  campaign: CampaignView,
  hole: HoleView | null,
  kind: string,
): readonly ThingView[] {
  const all = (): readonly ThingView[] => {
    switch (kind) {
      case 'hole':
        return campaign.holes;
      case 'person':
        return campaign.people;
      case 'run':
        return hole?.runs ?? [];
      case 'piece':
        return hole?.runs.flatMap((run) => run.pieces) ?? [];
      case 'zero':
        return hole?.zeros ?? [];
      case 'sounding':
        return hole?.soundings ?? [];
      default:
        return hole?.others[kind] ?? campaign.others[kind] ?? [];
    }
  };
  return all().filter((one) => one.withdrawn === null);
}

/** The newest standing thing of a kind. */
export const newestOf = (
  campaign: CampaignView,
  hole: HoleView | null,
  kind: string,
): ThingView | undefined => thingsOfKind(campaign, hole, kind).at(-1);

/** The newest reading of a field among the things of a kind; a set-up says nothing of cutters when it has none. */
export function newestReading(
  campaign: CampaignView,
  hole: HoleView | null,
  kind: string,
  field: string,
): string | undefined {
  return thingsOfKind(campaign, hole, kind).findLast((one) => one.readings[field])?.readings[field]?.text;
}

/** Different texts said before for a field, the newest first. */
export function saidBefore(
  campaign: CampaignView,
  hole: HoleView | null,
  kind: string,
  field: string,
  most: number,
): readonly string[] {
  const texts = thingsOfKind(campaign, hole, kind)
    .flatMap((one) => one.readings[field]?.text ?? [])
    .reverse();
  return [...new Set(texts)].slice(0, most);
}

/** "Pit 3" where there are pits 1 and 2: the stem with the next number that nobody has used. */
export function nextName(stem: string, used: readonly string[]): string {
  const numbers = used.map((name) => {
    const number = /(\d+)\s*$/.exec(name)?.[1];
    return name.startsWith(stem) && number !== undefined ? Number(number) : 0;
  });
  return `${stem} ${Math.max(0, ...numbers) + 1}`;
}
