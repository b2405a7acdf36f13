import type { CarryPreview } from '@firnbook/exchange/carry';
import { createLedger, type Verify } from '@firnbook/journal';
import { type Brought, type Carrying, chunksOf } from './carrying.ts';

/** What a file would bring to this device. */
export interface LookedInto {
  readonly preview: CarryPreview;
  /** Whether its campaign is on this device already. */
  readonly isHere: boolean;
}

/** Files from other devices, of whatever campaign. */
export interface BringIn {
  /** Rejects with CarryFileError where it is no such file. Changes nothing. */
  look(file: Blob): Promise<LookedInto>;
  take(file: Blob, looked: LookedInto, onProgress: (entries: number) => void): Promise<Brought>;
}

export interface BringInOptions {
  /** Ids of the campaigns on this device. */
  readonly held: () => Promise<readonly string[]>;
  readonly carrying: (campaign: string) => Carrying;
  /** Makes room for a campaign that is not on this device. */
  /** Undefined where the browser can't check signatures. */
  readonly verify: () => Promise<Verify | undefined>;
  readonly begin: (campaign: string, name: string) => Promise<void>;
}

export function startBringIn({ held, carrying, begin, verify }: BringInOptions): BringIn {
  return {
    async look(file) {
      const { previewCarry, readCarryLines } = await import('@firnbook/exchange/carry');
      const lines = readCarryLines(chunksOf(file));
      const read = (await lines.next()).value;
      await lines.return(null);
      const campaign = read !== null && 'first' in read ? read.first.campaign : '';
      const isHere = (await held()).includes(campaign);
      if (isHere) return { preview: await carrying(campaign).look(file), isHere };
      const preview = await previewCarry(chunksOf(file), {
        ledger: createLedger(),
        hasAttachment: async () => false,
        verify: await verify(),
      });
      return { preview, isHere };
    },
    async take(file, { preview, isHere }, onProgress) {
      const { campaign, campaignName } = preview.first;
      if (!isHere) await begin(campaign, campaignName || campaign);
      return carrying(campaign).take(file, preview, onProgress);
    },
  };
}
