import { parse } from './canonical.ts';

/** Who writes into a store, as noted in the store itself. */
export interface Identity {
  readonly device: string;
  /** The life of the store in which this device began to write. */
  readonly epoch: string;
  /** Hashes of the damaged rows that were there when it began. */
  readonly damage: readonly string[];
}

/** Name of the store's note. */
export const IDENTITY_NOTE = 'device';

/** Null where there is no note or it cannot be read: the store then gets a new device, which is always safe. */
export function readIdentity(text: string | null): Identity | null {
  if (text === null) return null;
  try {
    const value = parse(text) as Record<string, unknown>;
    const { device, epoch, damage } = value;
    if (typeof device !== 'string' || typeof epoch !== 'string' || !Array.isArray(damage)) return null;
    return { device, epoch, damage: damage.filter((hash) => typeof hash === 'string') };
  } catch {
    return null;
  }
}

/**
 * Whether the noted device may go on writing. Not after the store was restored from a backup (its own later
 * entries may live on elsewhere) and not after damage it did not know of (the damaged row may be its last): it
 * would use a sequence number twice.
 */
export function mayGoOn(identity: Identity, epoch: string, damage: readonly string[]): boolean {
  return identity.epoch === epoch && damage.every((hash) => identity.damage.includes(hash));
}
