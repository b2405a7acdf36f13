import { createKeys, type Keys, type Ledger } from '@firnbook/journal';
import type { DeviceRecord } from '../network/index.ts';
import { campItself } from './seen.ts';

/**
 * Whether a report about a device is taken from who sends it: nobody speaks for another one. Whose chain states a key,
 * for that speaks who showed that key. Else who came first, until that pairing is revoked or gone, or the new one
 * shows the same key: a tablet that was paired again.
 *
 * @param speaker null for the camp computer's own browser
 * @param first who spoke for it so far
 * @param stated the key that the device's chain states in this campaign; null where it states none
 */
export function maySpeak(
  speaker: DeviceRecord | null,
  first: string | null,
  devices: readonly DeviceRecord[],
  stated: string | null,
): boolean {
  if (stated !== null && speaker !== null && speaker.publicKey !== null)
    return speaker.publicKey === stated || speaker.otherKey?.key === stated;
  if (first === null || first === (speaker?.id ?? campItself)) return true;
  if (first === campItself) return false;
  const before = devices.find(({ id }) => id === first);
  if (before === undefined || before.revokedAt !== null) return true;
  return speaker !== null && before.publicKey !== null && before.publicKey === speaker.publicKey;
}

/** Finds the key that a device's chain states last. */
export function statedKeys(): (ledger: Ledger, device: string) => string | null {
  const walked = new WeakMap<Ledger, Keys>();
  return (ledger, device) => {
    let keys = walked.get(ledger);
    if (keys === undefined) walked.set(ledger, (keys = createKeys()));
    const tip = ledger.tip(device);
    return tip === undefined ? null : keys.upTo(tip, ledger.get);
  };
}
