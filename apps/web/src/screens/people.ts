import { type CampaignView, isCalled } from '@firnbook/campaign';

/** Initials of whoever said it; the bare id's start where the person's entry has not arrived. */
export function initialsOf(campaign: CampaignView, person: string): string {
  return campaign.people.find((one) => isCalled(one, person))?.name ?? person.slice(0, 4);
}
