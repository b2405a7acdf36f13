import { createHash, randomBytes, randomUUID } from 'node:crypto';
import { join } from 'node:path';
import type { Have } from '@firnbook/journal';
import { readPrivate, writePrivate } from './private-file.ts';

/** A tablet or phone that was paired with this camp computer. */
export interface DeviceRecord {
  readonly id: string;
  /** What people call it: "tablet 3". */
  readonly name: string;
  /** ISO 8601, UTC, of this computer's clock. */
  readonly pairedAt: string;
  /** When it was paired again under the same key; null where it never was. */
  readonly renewedAt: string | null;
  readonly lastSeen: string;
  /** Null while it may come in. */
  readonly revokedAt: string | null;
  /** Of the key that signs its entries: 32 bytes, base64url. It showed that the key is its own; null where it has none. */
  readonly publicKey: string | null;
  /** Another key that it showed since, and when first: a browser that lost its storage, or somebody with its credential. */
  readonly otherKey: { readonly key: string; readonly at: string } | null;
  /** What was here of its entries, by campaign, when it was revoked; null before, or where it was not noted. */
  readonly held: Readonly<Record<string, Have>> | null;
}

/** The paired devices of one data folder. Of a device's credential only the SHA-256 is kept. */
export interface Devices {
  list(): readonly DeviceRecord[];
  /**
   * A new record, on the disk when this returns, and the credential that goes to the device alone. A device that is let
   * in under this key already keeps its line, and its credential of before is good no more: a browser has one.
   *
   * @param publicKey that it showed to be its own
   */
  add(
    name: string,
    publicKey?: string | null,
  ): { readonly device: DeviceRecord; readonly credential: string };
  /** The device that holds this credential, revoked or not. */
  find(credential: string): DeviceRecord | null;
  /** Notes that it came; on the disk now and then. */
  see(id: string): void;
  /** A device shows which key is its own; on the disk when this returns. The first one stays. */
  tellKey(id: string, publicKey: string): 'kept' | 'another';
  /**
   * On the disk when this returns; false where there is no such device, or it was revoked before.
   *
   * @param held what is here of its entries, by campaign
   */
  revoke(id: string, held?: DeviceRecord['held']): boolean;
  /** Reads the list anew: another one was put in its place. */
  reload(): void;
  /** Writes what was only noted. */
  close(): void;
}

interface Kept extends DeviceRecord {
  readonly credential: string;
}

/** How old the time of the last visit on the disk may be, ms. */
const seenEvery = 5 * 60_000;

/**
 * @throws Error with words where the list can't be read: nobody is let in by a guess, and nothing is overwritten
 */
export function openDevices(dataFolder: string, now: () => number = Date.now): Devices {
  const file = join(dataFolder, 'network', 'devices.json');
  const devices = new Map(readAll(file).map((device) => [device.id, device]));
  let writtenAt = now();
  let isNoted = false;

  const write = () => {
    writePrivate(file, `${JSON.stringify([...devices.values()], null, 1)}\n`);
    writtenAt = now();
    isNoted = false;
  };
  const stamp = () => new Date(now()).toISOString();
  /** On the disk, or as it was. */
  const put = (device: Kept) => {
    const before = devices.get(device.id);
    devices.set(device.id, device);
    try {
      write();
    } catch (error) {
      if (before === undefined) devices.delete(device.id);
      else devices.set(device.id, before);
      throw error;
    }
  };

  return {
    list: () => [...devices.values()].map(shown),
    add(name, publicKey = null) {
      const credential = randomBytes(32).toString('base64url');
      const at = stamp();
      const all = [...devices.values()];
      const before = all.find(
        (one) => publicKey !== null && one.publicKey === publicKey && one.revokedAt === null,
      );
      const others = all.filter((one) => one !== before);
      const device: Kept = {
        id: before?.id ?? randomUUID(),
        name: freeName(name, others),
        pairedAt: before?.pairedAt ?? at,
        renewedAt: before === undefined ? null : at,
        lastSeen: at,
        revokedAt: null,
        publicKey,
        otherKey: null,
        held: null,
        credential: hashOf(credential),
      };
      put(device);
      return { device: shown(device), credential };
    },
    find(credential) {
      const hash = hashOf(credential);
      for (const device of devices.values()) if (device.credential === hash) return shown(device);
      return null;
    },
    see(id) {
      const device = devices.get(id);
      if (device === undefined) return;
      devices.set(id, { ...device, lastSeen: stamp() });
      isNoted = true;
      if (now() - writtenAt < seenEvery) return;
      writtenAt = now();
      try {
        write();
      } catch {
        // A full disk must not turn a tablet away: the time of its visit is worth less than its entries.
      }
    },
    tellKey(id, publicKey) {
      const device = devices.get(id);
      if (device === undefined) return 'another';
      if (device.publicKey === publicKey) return 'kept';
      if (device.publicKey === null) {
        put({ ...device, publicKey });
        return 'kept';
      }
      if (device.otherKey?.key !== publicKey) put({ ...device, otherKey: { key: publicKey, at: stamp() } });
      return 'another';
    },
    revoke(id, held = null) {
      const device = devices.get(id);
      if (device === undefined || device.revokedAt !== null) return false;
      put({ ...device, revokedAt: stamp(), held });
      return true;
    },
    reload() {
      const read = readAll(file);
      devices.clear();
      for (const device of read) devices.set(device.id, device);
      isNoted = false;
    },
    close() {
      if (!isNoted) return;
      try {
        write();
      } catch {
        // As in `see`.
      }
    },
  };
}

/** Two devices of one name could not be told apart when one is to be revoked. */
function freeName(wanted: string, others: Iterable<DeviceRecord>): string {
  const taken = new Set([...others].filter((one) => one.revokedAt === null).map(({ name }) => name));
  let name = wanted;
  for (let number = 2; taken.has(name); number += 1) name = `${wanted} (${number})`;
  return name;
}

const hashOf = (credential: string): string => createHash('sha256').update(credential).digest('hex');

const shown = ({ credential, ...device }: Kept): DeviceRecord => device;

function readAll(file: string): readonly Kept[] {
  const list = parseDevices(readPrivate(file) ?? '[]');
  if (list !== null) return list;
  throw new Error(`${file} can not be read. Move it away and pair the devices again.`);
}

/** Null where it can't be understood. */
export function parseDevices(text: string): readonly Kept[] | null {
  try {
    const list: unknown = JSON.parse(text);
    if (!Array.isArray(list) || !list.every(isKept)) return null;
    // Older lists know of no second key and no renewal, and noted nothing at a revocation.
    return list.map((one) => ({
      ...one,
      renewedAt: one.renewedAt ?? null,
      otherKey: one.otherKey ?? null,
      held: one.held ?? null,
    }));
  } catch {
    return null;
  }
}

function isKept(value: unknown): value is Kept {
  const { id, name, pairedAt, lastSeen, revokedAt, publicKey, credential } = (value ?? {}) as Partial<Kept>;
  const texts = [id, name, pairedAt, lastSeen, credential];
  return (
    texts.every((text) => typeof text === 'string') &&
    [revokedAt, publicKey].every((text) => text === null || typeof text === 'string')
  );
}
