import { keep, recall } from '../device/kept.ts';
import { listDevices, type PairedDevice } from './gate.ts';

/** The camp's devices as the camp computer last listed them; remembered, so that marks stand while it is away. */
export interface DeviceList {
  /** The same list until another one comes. */
  current(): readonly PairedDevice[];
  /** Never rejects: what was told before stands. */
  ask(): Promise<void>;
  subscribe(listener: () => void): () => void;
}

const mark = 'paired';
/** Asked for no more often, ms: a revocation is no matter of seconds for a mark. */
const again = 30_000;

export function startDeviceList(
  list: () => Promise<readonly PairedDevice[]>,
  now: () => number = Date.now,
): DeviceList {
  const listeners = new Set<() => void>();
  let text = recall(mark) ?? '[]';
  let devices = readList(text);
  let askedAt = Number.NEGATIVE_INFINITY;

  return {
    current: () => devices,
    async ask() {
      if (Math.abs(now() - askedAt) < again) return;
      askedAt = now();
      let told: readonly PairedDevice[];
      try {
        told = await list();
      } catch {
        askedAt = Number.NEGATIVE_INFINITY;
        return;
      }
      // When each was here last changes all the time, and marks nothing.
      const next = JSON.stringify(told.map(({ lastSeen, ...device }) => ({ ...device, lastSeen: '' })));
      if (next === text) return;
      text = next;
      devices = readList(text);
      keep(mark, text);
      for (const listener of listeners) listener();
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** Of this page. */
export const deviceList = startDeviceList(listDevices);

/** Something else under that name costs the marks until the list comes again. */
function readList(text: string): readonly PairedDevice[] {
  try {
    const read: unknown = JSON.parse(text);
    return Array.isArray(read) ? read.filter(isDevice) : [];
  } catch {
    return [];
  }
}

function isDevice(value: unknown): value is PairedDevice {
  const { id, name, pairedAt, publicKey } = (value ?? {}) as Partial<PairedDevice>;
  const isKey = publicKey === null || typeof publicKey === 'string';
  return [id, name, pairedAt].every((one) => typeof one === 'string') && isKey;
}
