import { type CampaignView, isCalled, standing, type ThingView } from '@firnbook/campaign';

/** Initials of whoever said it; the bare id's start where the person's entry has not arrived. */
export function initialsOf(campaign: CampaignView, person: string): string {
  return campaign.people.find((one) => isCalled(one, person))?.name ?? person.slice(0, 4);
}

/** Who may pick their initials: those at work now before the others, each in the order in which they came. */
export function crewOf(
  campaign: CampaignView,
): readonly { readonly thing: ThingView; readonly isOnDuty: boolean }[] {
  const duties = standing(campaign.others.duty ?? []).filter((duty) => duty.readings.ended === undefined);
  const crew = standing(campaign.people).map((thing) => ({
    thing,
    isOnDuty: duties.some(({ readings }) => isCalled(thing, readings.person?.text ?? '')),
  }));
  return [...crew].sort((a, b) => Number(b.isOnDuty) - Number(a.isOnDuty));
}
