import {
  createKeys,
  type Entry,
  type Have,
  haveOf,
  type Ledger,
  type Listed,
  weighRevoked,
} from '@firnbook/journal';
import type { DeviceRecord } from './devices.ts';

/** What a paired device wrote in one campaign, as its signatures tell; what it wrote unsigned is nobody's. */
export interface Wrote {
  /** Id of the device in the list. */
  readonly device: string;
  readonly entries: number;
  /** Of these, what came here after it was revoked. */
  readonly came: number;
  /** Of those, what was made after that by the device's own clock, which may be wrong. */
  readonly made: number;
}

/** Counts a campaign's entries by the device that signed them. Devices that wrote nothing in it are left out. */
export function countWrote(
  campaign: string,
  ledger: Ledger,
  devices: readonly DeviceRecord[],
): readonly Wrote[] {
  const keys = createKeys();
  const lines = devices.map((record) => listedIn(campaign, record));
  const weigh = weighRevoked(ledger, lines);
  // Paired again under its key, a device stands in the list twice: what is not marked is the newest one's.
  const byKey = new Map(
    [...lines]
      .sort((a, b) => a.pairedAt - b.pairedAt)
      .flatMap((one) => (one.key === null ? [] : [[one.key, one]])),
  );
  const counts = new Map<string, { device: string; entries: number; came: number; made: number }>();
  for (const entry of chained(ledger)) {
    const key = keys.upTo(entry, ledger.get);
    if (key === null) continue;
    const marked = weigh(entry, key);
    const id = marked?.device.id ?? byKey.get(key)?.id;
    if (id === undefined) continue;
    const count = counts.get(id) ?? { device: id, entries: 0, came: 0, made: 0 };
    counts.set(id, count);
    count.entries += 1;
    if (marked !== null && marked.since !== 'before') count.came += 1;
    if (marked?.since === 'made after') count.made += 1;
  }
  return devices.flatMap(({ id }) => counts.get(id) ?? []);
}

/** The heads of what is here by one key: what is noted when its device is revoked. */
export function heldOf(ledger: Ledger, key: string): Have {
  const keys = createKeys();
  const own = Object.entries(haveOf(ledger)).filter(([, heads]) =>
    heads.some(({ hash }) => {
      const head = ledger.get(hash);
      return head !== undefined && keys.upTo(head, ledger.get) === key;
    }),
  );
  return Object.fromEntries(own);
}

const listedIn = (campaign: string, record: DeviceRecord): Listed & { readonly id: string } => ({
  id: record.id,
  key: record.publicKey,
  pairedAt: Date.parse(record.pairedAt),
  revokedAt: record.revokedAt === null ? null : Date.parse(record.revokedAt),
  held: record.held === null ? null : (record.held[campaign] ?? {}),
});

/** Chain by chain, so that each key is found from the entry before. */
function* chained(ledger: Ledger): Generator<Entry> {
  for (const device of ledger.devices()) for (const level of ledger.chain(device)?.levels ?? []) yield* level;
}
