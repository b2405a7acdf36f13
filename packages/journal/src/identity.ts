import { canonical, parse } from './canonical.ts';

/** Who writes into a store, as noted in the store itself. */
export interface Identity {
  readonly device: string;
  /** The life of the store in which this device began to write. */
  readonly epoch: string;
  /** Hashes of the damaged rows that were there when it began. */
  readonly damage: readonly string[];
  /** Public key that its entries are signed with from now on; null while they are not. */
  readonly key: string | null;
}

/** Name of the store's note. */
export const IDENTITY_NOTE = 'device';

/** Null where there is no note or it cannot be read: the store then gets a new device, which is always safe. */
export function readIdentity(text: string | null): Identity | null {
  if (text === null) return null;
  try {
    const value = parse(text) as Record<string, unknown>;
    const { device, epoch, damage, key } = (value.signing ?? value) as Record<string, unknown>;
    if (typeof device !== 'string' || typeof epoch !== 'string' || !Array.isArray(damage)) return null;
    if (value.signing !== undefined && typeof key !== 'string') return null;
    return {
      device,
      epoch,
      damage: damage.filter((hash) => typeof hash === 'string'),
      key: typeof key === 'string' ? key : null,
    };
  } catch {
    return null;
  }
}

/**
 * What is noted. A device that signs is noted in a shape that programs from before signatures can't read: they take
 * a new name then, where they would go on with entries that lack their signature and are refused everywhere (J9).
 */
export function writeIdentity({ device, epoch, damage, key }: Identity): string {
  const plain = { device, epoch, damage };
  return canonical(key === null ? plain : { signing: { ...plain, key } });
}

/**
 * Whether the noted device may go on writing. Not after the store was restored from a backup (its own later
 * entries may live on elsewhere) and not after damage it did not know of (the damaged row may be its last): it
 * would use a sequence number twice. Nor where it has signed with a key that is not at hand (J9).
 *
 * @param key that this process can sign with; null where it can't
 */
export function mayGoOn(
  identity: Identity,
  epoch: string,
  damage: readonly string[],
  key: string | null,
): boolean {
  if (identity.key !== null && identity.key !== key) return false;
  return identity.epoch === epoch && damage.every((hash) => identity.damage.includes(hash));
}
