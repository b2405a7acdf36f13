import { readStamp } from './clock.ts';
import { coverageOf, type Have } from './coverage.ts';
import type { Entry } from './entry.ts';
import type { Ledger } from './ledger.ts';

/** A device as the camp computer lists it, as far as its entries are to be weighed by it. Times: ms since 1970. */
export interface Listed {
  /** Of its signing key: 32 bytes, base64url; null where it told none. */
  readonly key: string | null;
  readonly pairedAt: number;
  /** Null while it is let in. */
  readonly revokedAt: number | null;
  /** What the camp computer held of this campaign when it was revoked; null where that was not noted. */
  readonly held: Have | null;
}

/**
 * An entry of a revoked device: the camp computer had it before; it came after that, brought by another carrier or
 * from a backup; or by the device's own clock, which may be wrong, it was made after that.
 */
export type Since = 'before' | 'came after' | 'made after';

/** What a list of devices says of one entry. */
export interface Revoked<Device extends Listed> {
  readonly device: Device;
  readonly since: Since;
}

/**
 * Weighs the entries of a journal by a list of devices. Null for an entry whose device is let in, or is in no list.
 * Paired again under the same key, a device is trusted again; what it made by its clock in between stays marked.
 * Nothing is refused for it (J5).
 */
export function weighRevoked<Device extends Listed>(
  ledger: Ledger,
  devices: readonly Device[],
): (entry: Entry, key: string | null) => Revoked<Device> | null {
  const ofKey = new Map<string, Device[]>();
  for (const device of [...devices].sort((a, b) => a.pairedAt - b.pairedAt))
    if (device.key !== null) ofKey.set(device.key, [...(ofKey.get(device.key) ?? []), device]);
  const wasHeld = new Map<Device, (entry: Entry) => boolean>();

  const since = (entry: Entry, device: Device, at: number): Since => {
    let held = wasHeld.get(device);
    if (held === undefined) wasHeld.set(device, (held = holding(ledger, device.held)));
    // What was here before can't have been made after, whatever the device's clock said.
    if (held(entry)) return 'before';
    if (readStamp(entry.header.stamp).milliseconds > at) return 'made after';
    return device.held === null ? 'before' : 'came after';
  };

  return (entry, key) => {
    const listed = key === null ? undefined : ofKey.get(key);
    for (const [index, device] of (listed ?? []).entries()) {
      const { revokedAt } = device;
      if (revokedAt === null) continue;
      const later = listed?.slice(index + 1).find(({ pairedAt }) => pairedAt >= revokedAt);
      const found = since(entry, device, revokedAt);
      if (later === undefined) return { device, since: found };
      if (found === 'made after' && readStamp(entry.header.stamp).milliseconds < later.pairedAt)
        return { device, since: found };
    }
    return null;
  };
}

function holding(ledger: Ledger, held: Have | null): (entry: Entry) => boolean {
  if (held === null) return () => false;
  const coverage = coverageOf(ledger, held);
  // A copy that is behind does not know the heads themselves; all that it has lies before them.
  return (entry) => coverage.holds(entry) || coverage.isAhead(entry.header.device);
}
