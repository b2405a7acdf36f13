import { describe, expect, it } from 'vitest';
import type { DeviceReport } from '../device/presence.ts';
import type { CampDevice } from './camp-devices.ts';
import { deviceName, silenceWords, stateWords } from './device-words.ts';

const now = Date.parse('2031-01-17T18:00:00Z');
const report: DeviceReport = {
  device: '01930000-0000-7000-8000-00000000c0fe',
  name: 'Tablet 3F2A',
  entries: 48,
  unsent: 12,
  clockOff: 93_000,
  persistence: 'promised',
  copies: 2,
  room: 'whole',
  ballast: 16_777_216,
  battery: { level: 0.43, charging: false },
};
const device = (more: Partial<DeviceReport> = {}, name = 'Tablet 3F2A'): CampDevice => ({
  id: report.device,
  name,
  isThis: false,
  report: { ...report, ...more },
  seenAt: now - 5 * 3_600_000,
  written: null,
  isSilent: true,
});

describe('silenceWords', () => {
  it.each([
    [12, 'Tablet 3F2A: last seen 5 h ago, 12 entries were only on it then.'],
    [1, 'Tablet 3F2A: last seen 5 h ago, 1 entry was only on it then.'],
    [
      0,
      'Tablet 3F2A: last seen 5 h ago. All that it held was on the camp computer then; what was written on it since is only there.',
    ],
  ])('of %i entries that were unsent', (unsent, words) => {
    expect(silenceWords(device({ unsent }), now)).toBe(words);
  });
});

describe('deviceName', () => {
  it('is the end of the id where nobody gave it a name', () => {
    expect(deviceName(device({}, ''))).toBe('Device C0FE');
  });
});

describe('stateWords', () => {
  it('says all that a device told', () => {
    expect(stateWords(report)).toEqual([
      '12 entries not sent yet',
      'clock 93\u00a0s ahead',
      'two copies on it',
      'the browser promised to keep it',
      '16 MB set aside',
      'battery 43\u00a0%',
    ]);
  });

  it('says nothing of what a device does not know', () => {
    const quiet = {
      ...report,
      unsent: 0,
      clockOff: null,
      persistence: null,
      room: 'absent',
      ballast: 0,
      battery: null,
    } as const;
    expect(stateWords(quiet)).toEqual(['all sent', 'two copies on it']);
  });

  it.each([
    [4_900, 'clock right'],
    [-6_000, 'clock 6\u00a0s behind'],
    [11 * 60_000, 'clock 11\u00a0min ahead'],
    [-5 * 3_600_000, 'clock 5\u00a0h behind'],
    [-3_652 * 86_400_000, 'clock 3652 days behind'],
  ])('a clock that is %i ms off: %s', (clockOff, words) => {
    expect(stateWords({ ...report, clockOff })[1]).toBe(words);
  });

  it.each([
    [{ copies: 1 }, 'one copy on it'],
    [{ persistence: 'refused' }, 'the browser has not promised to keep it'],
    [{ persistence: 'absent' }, 'the browser has not promised to keep it'],
    [{ room: 'last', ballast: 0 }, 'its disk is full'],
    [{ room: 'stuck', ballast: 0 }, 'its browser writes nothing more'],
    [{ battery: { level: 1, charging: true } }, 'battery 100\u00a0%, charging'],
  ] as const)('of %o: %s', (more, words) => {
    expect(stateWords({ ...report, ...more })).toContain(words);
  });
});
