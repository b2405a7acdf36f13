import { createLedger, type Ledger } from '@firnbook/journal';
import { countWrote, type DeviceRecord, heldOf, type Wrote } from '@firnbook/server';
import { campaignPaths, listCampaigns, verifyJournal } from '@firnbook/storage/sqlite';

/** What a paired device wrote in one campaign, with the name that people know. */
export interface WroteIn extends Wrote {
  /** Of the campaign in a list of devices; of the device in a list of campaigns. */
  readonly name: string;
}

/** By device, for a ledger that was read. */
export const wroteIn = (
  campaign: string,
  ledger: Ledger,
  devices: readonly DeviceRecord[],
): readonly WroteIn[] =>
  countWrote(campaign, ledger, devices).map((one) => ({
    ...one,
    name: devices.find(({ id }) => id === one.device)?.name ?? one.device,
  }));

/** Of all campaigns of a folder that no server holds. Campaigns go by their ids. */
export const wroteInFolder = (folder: string, devices: readonly DeviceRecord[]): readonly WroteIn[] =>
  devices.length === 0
    ? []
    : listCampaigns(folder).flatMap((campaign) =>
        countWrote(campaign, readLedger(folder, campaign), devices).map((one) => ({
          ...one,
          name: campaign,
        })),
      );

/** What lies in a folder of a device's entries: noted when it is revoked while no server runs. */
export const heldInFolder = (
  folder: string,
  devices: readonly DeviceRecord[],
  id: string,
): DeviceRecord['held'] => {
  const key = devices.find((one) => one.id === id)?.publicKey ?? null;
  if (key === null) return null;
  return Object.fromEntries(
    listCampaigns(folder).map((campaign) => [campaign, heldOf(readLedger(folder, campaign), key)]),
  );
};

export const countWords = ({ entries, came, made }: Wrote): string => {
  const all = entries === 1 ? '1 entry' : `${entries} entries`;
  if (came === 0) return all;
  return `${all}, ${came} came after it was revoked${made === 0 ? '' : `, ${made} made after that by its clock`}`;
};

const readLedger = (folder: string, campaign: string): Ledger => {
  const ledger = createLedger();
  verifyJournal(campaignPaths(folder, campaign).journal, (entry) => void ledger.add([entry]));
  return ledger;
};
