import { describe, expect, it } from 'vitest';
import type { DeviceReport, SeenDevice, Told } from '../device/presence.ts';
import { campDevices, type LastWritten, lastWritten } from './camp-devices.ts';

const hour = 3_600_000;
const now = Date.parse('2031-01-17T18:00:00Z');

const report = (device: string, more: Partial<DeviceReport> = {}): DeviceReport => ({
  device,
  name: `said ${device}`,
  entries: 40,
  unsent: 0,
  clockOff: 0,
  persistence: 'promised',
  copies: 2,
  room: 'whole',
  ballast: 16_777_216,
  battery: null,
  ...more,
});
const seen = (device: string, ago: number, more: Partial<DeviceReport> = {}): SeenDevice => ({
  ...report(device, more),
  seenAt: now - ago,
});
const wrote = (ago: number): LastWritten => ({
  stamped: now - ago,
  observedAt: new Date(now - ago).toISOString(),
});

function listed(
  devices: readonly SeenDevice[],
  written: Readonly<Record<string, LastWritten>>,
  told: Partial<Told> | null = {},
) {
  return campDevices({
    own: report('own'),
    told: told === null ? null : { asOf: now, devices, ...told },
    written: new Map(Object.entries(written)),
    nameOf: (device) => (device === 'named' ? 'core tablet' : null),
    now,
  });
}
const silentOnes = (list: ReturnType<typeof listed>) =>
  list.filter(({ isSilent }) => isSilent).map(({ id }) => id);

describe('campDevices', () => {
  it('a device that wrote in the last day of the season and was not heard for hours is silent, and comes first', () => {
    const list = listed([seen('near', 60_000), seen('gone', 5 * hour)], {
      near: wrote(hour),
      gone: wrote(5.2 * hour),
    });
    expect(list.map(({ id }) => id)).toEqual(['gone', 'own', 'near']);
    expect(silentOnes(list)).toEqual(['gone']);
  });

  it('control: one that was heard lately, or has not written for days and owes nothing, is not', () => {
    const list = listed([seen('asleep', 2.5 * hour), seen('packed', 90 * hour)], {
      asleep: wrote(2.6 * hour),
      packed: wrote(91 * hour),
    });
    expect(silentOnes(list)).toEqual([]);
  });

  it('one that holds what nobody else has is silent whenever it wrote', () => {
    expect(silentOnes(listed([seen('owes', 90 * hour, { unsent: 7 })], { other: wrote(hour) }))).toEqual([
      'owes',
    ]);
  });

  it('the last day is the season’s: what was written last counts, not the date of today', () => {
    const written = { gone: wrote(400 * 24 * hour), other: wrote(400 * 24 * hour - 9 * hour) };
    expect(silentOnes(listed([seen('gone', 6 * hour)], written))).toEqual(['gone']);
  });

  it('while the camp computer is away nobody turns silent', () => {
    const asOf = now - 20 * hour;
    const list = listed([seen('there', 20 * hour + 60_000)], { there: wrote(21 * hour) }, { asOf });
    expect(silentOnes(list)).toEqual([]);
  });

  it('this device is told as it is now, and is never silent', () => {
    const [own] = listed([seen('own', 9 * hour, { unsent: 3 })], { own: wrote(hour) });
    expect(own).toMatchObject({ id: 'own', isThis: true, seenAt: now, isSilent: false });
    expect(own?.report?.unsent).toBe(0);
  });

  it('devices that only the record knows come last, without a visit that nobody saw', () => {
    const list = listed([], { named: wrote(30 * hour), late: wrote(3 * hour) }, null);
    expect(list.map(({ id, seenAt }) => [id, seenAt])).toEqual([
      ['own', now],
      ['late', null],
      ['named', null],
    ]);
    expect(silentOnes(list)).toEqual([]);
  });

  it('the name in the record goes before the name that was said', () => {
    const list = listed([seen('named', 1000), seen('plain', 2000)], {});
    expect(list.map(({ name }) => name)).toEqual(['said own', 'core tablet', 'said plain']);
  });
});

describe('lastWritten', () => {
  it('takes each device’s newest stamp and when that was seen', () => {
    const entry = (device: string, stamp: string, observedAt: string) =>
      ({ header: { device, stamp, observedAt } }) as Parameters<typeof lastWritten>[0][number];
    const all = [
      entry('a', '000000000000700-000002', '2031-01-17T08:00:00+01:00'),
      entry('b', '000000000000500-000001', '2031-01-16T08:00:00+01:00'),
      entry('a', '000000000000600-000001', '2031-01-17T09:00:00+01:00'),
    ];
    expect([...lastWritten(all, (stamp) => Number(stamp.slice(0, 15)))]).toEqual([
      ['a', { stamped: 700, observedAt: '2031-01-17T08:00:00+01:00' }],
      ['b', { stamped: 500, observedAt: '2031-01-16T08:00:00+01:00' }],
    ]);
  });
});
