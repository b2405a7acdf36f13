import { ownStanding } from '../pair/standing.ts';
import type { BookHandle, Safety, StorageState } from './book.ts';
import { keep, recall } from './kept.ts';

/** What a device says of itself to the camp computer, for the crew to see. No part of the record. */
export interface DeviceReport {
  /** Under which it writes entries. */
  readonly device: string;
  readonly name: string;
  readonly entries: number;
  /** Entries that the camp computer has not confirmed. */
  readonly unsent: number;
  /** ms by which its clock is ahead of the camp computer's; null where it does not know. */
  readonly clockOff: number | null;
  readonly persistence: StorageState['persistence'];
  readonly copies: 1 | 2;
  readonly room: StorageState['room'];
  /** Bytes set aside. */
  readonly ballast: number;
  readonly battery: Battery | null;
}

export interface Battery {
  /** 0 to 1. */
  readonly level: number;
  readonly charging: boolean;
}

/** A device as the camp computer last heard it. */
export interface SeenDevice extends DeviceReport {
  /** ms since 1970 of this device's clock. */
  readonly seenAt: number;
}

/** What the camp computer told, and when. */
export interface Told {
  readonly asOf: number;
  readonly devices: readonly SeenDevice[];
}

type Spoken = Pick<BookHandle, 'device' | 'safety' | 'campaign'>;
type Kept = Pick<StorageState, 'persistence' | 'room' | 'ballast'>;

/** An unchanged state is told again after this long, ms: "last seen" is no finer. */
const again = 20_000;
const patience = 20_000;

export function reportOf(
  { device, safety }: Pick<Spoken, 'device' | 'safety'>,
  storage: Kept,
  battery: Battery | null,
): DeviceReport {
  const { persistence, room, ballast } = storage;
  return {
    device: device.id,
    name: device.name,
    entries: safety.onTablet,
    unsent: safety.onlyHere,
    clockOff: safety.clockDrift,
    persistence,
    copies: safety.copies,
    room,
    ballast,
    battery,
  };
}

export interface PresenceOptions {
  readonly campaign: string;
  readonly spoken: () => Spoken;
  readonly storage: () => Kept;
  readonly now: () => number;
  readonly battery: () => Promise<Battery | null>;
  /** The browser's fetch. */
  readonly ask: typeof fetch;
}

/**
 * Tells the camp computer how this device is, beside an exchange. Called at every change of the book; speaks when an
 * exchange was answered and what is unsent changed or nothing was told for a while, and tries while entries wait that
 * no exchange takes (the disk there may be full, and the crew should know). Never rejects: nothing depends on it.
 */
export function startPresence(options: PresenceOptions): () => Promise<void> {
  const { campaign, spoken, storage, now, battery, ask } = options;
  let answered: string | null = null;
  let told: { readonly at: number; readonly unsent: number } | null = null;
  let isTelling = false;
  let isWaiting = false;

  /** While no exchange is answered nothing of the book changes, so nobody else would call. */
  const lookAgain = () => {
    if (isWaiting) return;
    isWaiting = true;
    setTimeout(() => {
      isWaiting = false;
      void tell();
    }, again);
  };

  const isDue = ({ safety }: Spoken): boolean => {
    const isLate = told === null || now() - told.at >= again;
    // Between the answer and the look at the clocks the book may be drawn; the answer of an earlier start has none.
    const isAnswered = safety.clockDrift !== null && safety.campSeen !== answered;
    if (!isAnswered) return isLate && isStuck(safety);
    answered = safety.campSeen;
    return isLate || told?.unsent !== safety.onlyHere;
  };

  const tell = async (): Promise<void> => {
    const before = spoken();
    if (isTelling || !hasWritten(before)) return;
    if (!isDue(before)) {
      if (isStuck(before.safety)) lookAgain();
      return;
    }
    isTelling = true;
    told = { at: now(), unsent: before.safety.onlyHere };
    try {
      await ask(addressOf(campaign), {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(reportOf(before, storage(), await battery())),
        signal: AbortSignal.timeout(patience),
      });
    } catch {
      // Away, or of an older version. The next exchange tells it.
    }
    isTelling = false;
    // An exchange may have been answered meanwhile, and be the last before this device is put away.
    await tell();
  };
  return tell;
}

/** Rejects where the camp computer gives no answer or a wrong one. What it told is remembered for when it is away. */
export async function askDevices(campaign: string): Promise<Told> {
  const answer = await ownStanding.ask(addressOf(campaign), {
    cache: 'no-store',
    signal: AbortSignal.timeout(patience),
  });
  const list: unknown = await answer.json();
  if (!answer.ok || !Array.isArray(list)) throw new Error(`${answer.status} instead of a list of devices`);
  const asOf = Date.now();
  const devices = (list as readonly (DeviceReport & { readonly ago: number })[]).map(
    ({ ago, ...report }) => ({
      ...report,
      seenAt: asOf - ago,
    }),
  );
  const told = { asOf, devices };
  keep(mark + campaign, JSON.stringify(told));
  return told;
}

/** What the camp computer told before; null where it never did. */
export function devicesToldBefore(campaign: string): Told | null {
  try {
    const told = JSON.parse(recall(mark + campaign) ?? 'null') as Told | null;
    return Array.isArray(told?.devices) && typeof told.asOf === 'number' ? told : null;
  } catch {
    return null;
  }
}

/** What the browser knows of the battery; null where it does not tell. Never rejects. */
export async function batteryHere(): Promise<Battery | null> {
  const browser = (globalThis as { navigator?: { getBattery?(): Promise<Battery> } }).navigator;
  try {
    const battery = await browser?.getBattery?.();
    return battery ? { level: battery.level, charging: battery.charging } : null;
  } catch {
    return null;
  }
}

/** A browser that only reads begins under a new id each time it is opened, and has nothing to lose. */
const hasWritten = ({ device, campaign }: Spoken): boolean =>
  campaign?.devices?.some((one) => one.readings.device?.text === device.id) ?? false;

/** Entries wait, and no exchange takes them. */
const isStuck = ({ camp, onlyHere }: Safety): boolean => camp === 'unreachable' && onlyHere > 0;

const mark = 'devices.';
const addressOf = (campaign: string): string => `/api/campaigns/${encodeURIComponent(campaign)}/presence`;
