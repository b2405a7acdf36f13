/** What a device says of itself beside an exchange. It is told to the crew and is no part of the record. */
export interface DeviceState {
  /** Under which it writes entries. */
  readonly device: string;
  readonly name: string;
  /** Entries that it holds. */
  readonly entries: number;
  /** Entries of these that the camp computer had not confirmed. */
  readonly unsent: number;
  /** ms by which its clock is ahead of this computer's; null where it does not know. */
  readonly clockOff: number | null;
  /** What its browser promised about keeping the record; null where it has not answered. */
  readonly persistence: 'promised' | 'refused' | 'absent' | null;
  /** Copies that it keeps of each entry. */
  readonly copies: 1 | 2;
  readonly room: 'unknown' | 'absent' | 'whole' | 'last' | 'none' | 'stuck';
  /** Bytes that it set aside. */
  readonly ballast: number;
  /** Null where the browser does not tell. */
  readonly battery: { readonly level: number; readonly charging: boolean } | null;
}

/** The longest name that a device can be given in the record. */
const longestName = 60;
const mostEntries = 10_000_000;
/** A year, ms: a clock may be wrong by decades, and "more than a year" is all that a person needs. */
const mostOff = 366 * 86_400_000;
const persistences = ['promised', 'refused', 'absent', null] as const;
const rooms = ['unknown', 'absent', 'whole', 'last', 'none', 'stuck'] as const;

/** The state in what a device sent, and nothing else of it; or what is wrong with it. */
export function readState(value: unknown): DeviceState | { readonly problem: string } {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return { problem: 'it is no object' };
  const said = value as Partial<Record<keyof DeviceState, unknown>>;
  const { device, name, entries, unsent, clockOff, persistence, copies, room, ballast } = said;
  if (typeof device !== 'string' || !/^[\w.-]{1,128}$/.test(device))
    return { problem: 'device is 1 to 128 letters, digits, dots and hyphens' };
  if (typeof name !== 'string' || name.length > longestName || /\p{Cc}/u.test(name))
    return { problem: `name is a line of at most ${longestName} characters` };
  if (!isCount(entries, mostEntries)) return { problem: `entries is 0 to ${mostEntries}` };
  if (!isCount(unsent, mostEntries)) return { problem: `unsent is 0 to ${mostEntries}` };
  if (clockOff !== null && !isNumber(clockOff)) return { problem: 'clockOff is a number of ms, or null' };
  if (!isOneOf(persistences, persistence)) return { problem: 'persistence is not one of its words' };
  if (copies !== 1 && copies !== 2) return { problem: 'copies is 1 or 2' };
  if (!isOneOf(rooms, room)) return { problem: 'room is not one of its words' };
  if (!isCount(ballast, Number.MAX_SAFE_INTEGER)) return { problem: 'ballast is a number of bytes' };
  const battery = readBattery(said.battery);
  if (battery === undefined) return { problem: 'battery is a level of 0 to 1 and charging, or null' };
  return {
    device,
    name,
    entries,
    unsent,
    clockOff: clockOff === null ? null : Math.round(Math.max(-mostOff, Math.min(mostOff, clockOff))),
    persistence,
    copies,
    room,
    ballast,
    battery,
  };
}

function readBattery(value: unknown): DeviceState['battery'] | undefined {
  if (value === null) return null;
  const { level, charging } = (value ?? {}) as { level?: unknown; charging?: unknown };
  if (!isNumber(level) || level < 0 || level > 1 || typeof charging !== 'boolean') return undefined;
  return { level, charging };
}

const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);

const isCount = (value: unknown, most: number): value is number =>
  Number.isSafeInteger(value) && (value as number) >= 0 && (value as number) <= most;

function isOneOf<T>(words: readonly T[], value: unknown): value is T {
  return words.includes(value as T);
}
