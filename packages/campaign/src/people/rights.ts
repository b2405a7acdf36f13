import { standing } from '../find.ts';
import type { Right } from '../kind.ts';
import type { CampaignRights, CampaignView, Rights } from '../view.ts';

/** Of somebody for whom nothing was said, where rights are by name: whoever comes new to a camp may log. */
export const nothingSaid: Rights = { log: true, plan: false, signOff: false };
const all: Rights = { log: true, plan: true, signOff: true };

/** @param rights undefined where the campaign has never said anything about them */
export function rightsIn(rights: CampaignRights | undefined, person: string): Rights {
  if (rights === undefined || !rights.byName) return all;
  return rights.people.get(person) ?? nothingSaid;
}

/** What a person may do now, by id. */
export const rightsOf = (campaign: CampaignView, person: string): Rights => rightsIn(campaign.rights, person);

/** Initials of whoever has a right now. */
export const whoMay = (campaign: CampaignView, right: Right): readonly string[] =>
  standing(campaign.people)
    .filter(({ id }) => rightsOf(campaign, id)[right])
    .map(({ name }) => name);

/** Whether a person has to show a PIN before plans are changed or anything is signed off in their name. */
export const asksPin = (campaign: CampaignView): boolean => campaign.rights?.asksPin ?? false;
