import type { Entry } from '@firnbook/journal';
import type { DeviceReport, Told } from '../device/presence.ts';

/** The last that a device wrote of what is in the record here. */
export interface LastWritten {
  /** ms since 1970, of the entry's stamp. */
  readonly stamped: number;
  /** ISO 8601 with offset: when it was seen, as the person says. */
  readonly observedAt: string;
}

/** A device of the camp, with all that is known of it here. */
export interface CampDevice {
  readonly id: string;
  readonly name: string;
  readonly isThis: boolean;
  /** Null for a device that the camp computer has not heard of. */
  readonly report: DeviceReport | null;
  /** ms since 1970 of this device's clock; null where it was not seen. */
  readonly seenAt: number | null;
  readonly written: LastWritten | null;
  /** It worked in the last day of the season, or holds what nobody else has, and was not heard for hours. */
  readonly isSilent: boolean;
}

interface Known {
  readonly own: DeviceReport;
  readonly told: Told | null;
  readonly written: ReadonlyMap<string, LastWritten>;
  /** What the record calls a device; null where it does not. */
  readonly nameOf: (device: string) => string | null;
  readonly now: number;
}

const day = 86_400_000;
/** A tablet sleeps through a meal; through a shift somebody goes and looks for it. */
const silentAfter = 3 * 3_600_000;

/** The silent ones first, then this one, then as they were last seen, then those that the record alone knows. */
export function campDevices({ own, told, written, nameOf, now }: Known): readonly CampDevice[] {
  const reports = new Map(told?.devices.map((device) => [device.device, device]));
  const newest = Math.max(...[...written.values()].map(({ stamped }) => stamped));
  const one = (id: string): CampDevice => {
    const isThis = id === own.device;
    const seen = reports.get(id);
    const report = isThis ? own : (seen ?? null);
    const seenAt = isThis ? now : (seen?.seenAt ?? null);
    const last = written.get(id) ?? null;
    const hasWorked = last !== null && last.stamped > newest - day;
    // What happened since the camp computer spoke is not known here, so it is no silence.
    const unheard = told === null || seenAt === null ? 0 : told.asOf - seenAt;
    return {
      id,
      name: nameOf(id) ?? report?.name ?? '',
      isThis,
      report,
      seenAt,
      written: last,
      isSilent: !isThis && unheard >= silentAfter && (hasWorked || (report?.unsent ?? 0) > 0),
    };
  };
  const ids = new Set([own.device, ...reports.keys(), ...written.keys()]);
  return [...ids].map(one).sort((a, b) => rank(a) - rank(b) || lastOf(b) - lastOf(a));
}

const rank = ({ isSilent, isThis, seenAt }: CampDevice): number =>
  isSilent ? 0 : isThis ? 1 : seenAt === null ? 3 : 2;
const lastOf = ({ seenAt, written }: CampDevice): number => seenAt ?? written?.stamped ?? 0;

/** @param stampOf ms since 1970 of an entry's stamp */
export function lastWritten(
  entries: readonly Pick<Entry, 'header'>[],
  stampOf: (stamp: string) => number,
): ReadonlyMap<string, LastWritten> {
  const newest = new Map<string, Entry['header']>();
  for (const { header } of entries) {
    const before = newest.get(header.device);
    // Stamps are text that sorts as time does.
    if (before === undefined || header.stamp > before.stamp) newest.set(header.device, header);
  }
  return new Map(
    [...newest].map(([device, { stamp, observedAt }]) => [device, { stamped: stampOf(stamp), observedAt }]),
  );
}
