import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { type DeviceState, readState } from './state.ts';

/** A device as it last spoke of itself. */
interface SeenDevice extends DeviceState {
  /** ISO 8601, UTC, of this computer's clock. */
  readonly seenAt: string;
  /** Id of the pairing that spoke first under its name, or `campItself`. Absent in files of older builds. */
  readonly pairing?: string;
}

/** The camp computer's own browser, which is paired with nobody. */
export const campItself = 'camp computer';

/** The devices of one campaign that came since its folder was made. */
export interface Seen {
  list(): readonly SeenDevice[];
  /** Who speaks for a device; null where nobody did. */
  pairingOf(device: string): string | null;
  /**
   * False where there are too many already: a program that goes wild stops here.
   *
   * @param pairing who speaks, and from now on speaks for this device
   */
  note(state: DeviceState, pairing: string): boolean;
  /** Writes what was only noted. */
  close(): void;
}

/** More than any camp has. */
const most = 200;
/** Devices that stayed away longer, ms, make room for a new one. */
const longGone = 60 * 86_400_000;
/** How old the time of the last visit on the disk may be, ms. */
const seenEvery = 30_000;

/**
 * @param file beside the journal; not flushed, since it is worth less than any entry
 * @param log told of a file that can't be read; then nothing is known until devices come again
 */
export function openSeen(file: string, log: (line: string) => void, now: () => number = Date.now): Seen {
  const devices = new Map(readSeen(file, log).map((device) => [device.device, device]));
  let writtenAt = 0;
  let isNoted = false;

  const write = () => {
    writtenAt = now();
    isNoted = false;
    try {
      writeFileSync(`${file}.new`, `${JSON.stringify([...devices.values()])}\n`);
      renameSync(`${file}.new`, file);
    } catch {
      // A full disk must not turn a tablet away: when it came is worth less than its entries.
    }
  };

  const hasRoom = (): boolean => {
    if (devices.size < most) return true;
    const oldest = [...devices.values()].sort((a, b) => (a.seenAt < b.seenAt ? -1 : 1))[0]!;
    if (now() - Date.parse(oldest.seenAt) < longGone) return false;
    return devices.delete(oldest.device);
  };

  return {
    list: () => [...devices.values()],
    pairingOf: (device) => devices.get(device)?.pairing ?? null,
    note(state, pairing) {
      const before = devices.get(state.device);
      if (before === undefined && !hasRoom()) return false;
      devices.set(state.device, { ...state, seenAt: new Date(now()).toISOString(), pairing });
      isNoted = true;
      // What is only on a device is told at once: it may be the last that is heard of it.
      if (
        before?.unsent !== state.unsent ||
        before.pairing !== pairing ||
        Math.abs(now() - writtenAt) >= seenEvery
      )
        write();
      return true;
    },
    close() {
      if (isNoted) write();
    },
  };
}

function readSeen(file: string, log: (line: string) => void): readonly SeenDevice[] {
  if (!existsSync(file)) return [];
  try {
    const list: unknown = JSON.parse(readFileSync(file, 'utf8'));
    if (Array.isArray(list)) return list.slice(0, most).flatMap(readOne);
  } catch {
    // Told below.
  }
  log(`${file} can not be read: when each device was last seen is told anew as they come.`);
  return [];
}

function readOne(value: unknown): readonly SeenDevice[] {
  const state = readState(value);
  const { seenAt, pairing } = (value ?? {}) as { seenAt?: unknown; pairing?: unknown };
  if ('problem' in state || typeof seenAt !== 'string' || Number.isNaN(Date.parse(seenAt))) return [];
  return [{ ...state, seenAt, ...(typeof pairing === 'string' && { pairing }) }];
}
