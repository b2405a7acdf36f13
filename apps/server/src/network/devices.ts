import { createHash, randomBytes, randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { readPrivate, writePrivate } from './private-file.ts';

/** A tablet or phone that was paired with this camp computer. */
export interface DeviceRecord {
  readonly id: string;
  /** What people call it: "tablet 3". */
  readonly name: string;
  /** ISO 8601, UTC, of this computer's clock. */
  readonly pairedAt: string;
  readonly lastSeen: string;
  /** Null while it may come in. */
  readonly revokedAt: string | null;
  /** JWK of the key that signs its entries; null where it has none. */
  readonly publicKey: string | null;
}

/** The paired devices of one data folder. Of a device's credential only the SHA-256 is kept. */
export interface Devices {
  list(): readonly DeviceRecord[];
  /** A new record, on the disk when this returns, and the credential that goes to the device alone. */
  add(name: string): { readonly device: DeviceRecord; readonly credential: string };
  /** The device that holds this credential, revoked or not. */
  find(credential: string): DeviceRecord | null;
  /** Notes that it came; on the disk now and then. */
  see(id: string): void;
  /** On the disk when this returns; false where there is no such device, or it was revoked before. */
  revoke(id: string): boolean;
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
  const byCredential = new Map([...devices.values()].map(({ credential, id }) => [credential, id]));
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
    add(name) {
      const credential = randomBytes(32).toString('base64url');
      const at = stamp();
      const device: Kept = {
        id: randomUUID(),
        name: freeName(name, devices.values()),
        pairedAt: at,
        lastSeen: at,
        revokedAt: null,
        publicKey: null,
        credential: hashOf(credential),
      };
      put(device);
      byCredential.set(device.credential, device.id);
      return { device: shown(device), credential };
    },
    find(credential) {
      const id = byCredential.get(hashOf(credential));
      const device = id === undefined ? undefined : devices.get(id);
      return device === undefined ? null : shown(device);
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
    revoke(id) {
      const device = devices.get(id);
      if (device === undefined || device.revokedAt !== null) return false;
      put({ ...device, revokedAt: stamp() });
      return true;
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

const shown = ({ id, name, pairedAt, lastSeen, revokedAt, publicKey }: Kept): DeviceRecord => ({
  id,
  name,
  pairedAt,
  lastSeen,
  revokedAt,
  publicKey,
});

function readAll(file: string): readonly Kept[] {
  const text = readPrivate(file);
  if (text === null) return [];
  try {
    const list: unknown = JSON.parse(text);
    if (Array.isArray(list) && list.every(isKept)) return list;
  } catch {
    // Told below.
  }
  throw new Error(`${file} can not be read. Move it away and pair the devices again.`);
}

function isKept(value: unknown): value is Kept {
  const { id, name, pairedAt, lastSeen, revokedAt, publicKey, credential } = (value ?? {}) as Partial<Kept>;
  const texts = [id, name, pairedAt, lastSeen, credential];
  return (
    texts.every((text) => typeof text === 'string') &&
    [revokedAt, publicKey].every((text) => text === null || typeof text === 'string')
  );
}
