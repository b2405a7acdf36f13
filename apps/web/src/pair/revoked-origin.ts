import {
  createKeys,
  type Entry,
  type Ledger,
  type Revoked,
  type Since,
  weighRevoked,
} from '@firnbook/journal';
import { type DeviceList, deviceList } from './device-list.ts';
import type { PairedDevice } from './gate.ts';

/** The revoked device that made an entry. */
export interface RevokedOrigin {
  readonly name: string;
  /** ISO 8601 (UTC): when it was revoked. */
  readonly at: string;
  readonly since: Since;
}

/** Tells of each entry of a campaign whether a revoked device made it, by what the camp computer listed last. */
export function watchRevoked(
  campaign: string,
  ledger: Ledger,
  devices: Pick<DeviceList, 'current'> = deviceList,
): (entry: Entry) => RevokedOrigin | null {
  const keys = createKeys();
  let weighed: {
    readonly size: number;
    readonly list: readonly PairedDevice[];
    readonly weigh: (entry: Entry, key: string | null) => Revoked<ReturnType<typeof listedIn>> | null;
  } | null = null;
  return (entry) => {
    const list = devices.current();
    if (weighed?.size !== ledger.size || weighed.list !== list) {
      const weigh = weighRevoked(
        ledger,
        list.map((device) => listedIn(campaign, device)),
      );
      weighed = { size: ledger.size, list, weigh };
    }
    const found = weighed.weigh(entry, keys.upTo(entry, ledger.get));
    return found === null
      ? null
      : { name: found.device.name, at: found.device.revokedAtText, since: found.since };
  };
}

const listedIn = (campaign: string, { name, publicKey, pairedAt, revokedAt, held }: PairedDevice) => ({
  name,
  key: publicKey,
  pairedAt: Date.parse(pairedAt),
  revokedAt: revokedAt === null ? null : Date.parse(revokedAt),
  revokedAtText: revokedAt ?? '',
  held: held === null ? null : (held[campaign] ?? {}),
});
