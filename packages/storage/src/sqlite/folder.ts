import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { trouble } from '../trouble.ts';

/** Where a campaign's things lie in a data folder. */
export interface CampaignPaths {
  readonly folder: string;
  readonly journal: string;
  readonly attachments: string;
}

/** One lower-case word: the same on disks that tell capitals apart and on those that don't, and no way out. */
const campaignForm = /^[a-z0-9](?:[a-z0-9-]{0,62}[a-z0-9])?$/;

export function isCampaignId(id: string): boolean {
  return campaignForm.test(id);
}

/** @throws StoreTrouble 'refused' for an id that can't be a folder's name. */
export function campaignPaths(dataFolder: string, campaign: string): CampaignPaths {
  if (!isCampaignId(campaign))
    throw trouble(
      'refused',
      'A campaign id is 1 to 64 letters a-z, digits and hyphens',
      campaign.slice(0, 80),
      'Use the id as the campaign was made with.',
    );
  const folder = join(dataFolder, 'campaigns', campaign);
  return { folder, journal: join(folder, 'journal.sqlite'), attachments: join(folder, 'attachments') };
}

/** Ids of the campaigns that lie in the folder, sorted. */
export function listCampaigns(dataFolder: string): readonly string[] {
  const folder = join(dataFolder, 'campaigns');
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => isCampaignId(name) && existsSync(campaignPaths(dataFolder, name).journal))
    .sort();
}
