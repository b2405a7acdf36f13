import type { DeviceReport } from '../device/presence.ts';
import { ago } from '../texts/ago.ts';
import { number } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import type { CampDevice } from './camp-devices.ts';
import '../texts/for-screens.ts';

/** Smaller differences go into no entry (journal), so nobody has to set a clock for them. */
const clockAgrees = 5_000;
const [minute, hour, day] = [60_000, 3_600_000, 86_400_000];

/** "Tablet 3F2A: last seen 5 h ago, 12 entries were only on it then." */
export function silenceWords(device: CampDevice, now: number): string {
  const values = { name: deviceName(device), seen: seenWords(device, now) };
  const count = device.report?.unsent ?? 0;
  return count > 0 ? t('today.device.silent', { ...values, count }) : t('today.device.silent.all', values);
}

/** What a device that is not named in the record and said no name is called: by the end of its id, as people see it. */
export function deviceName({ id, name }: CampDevice): string {
  return name || t('today.device.unnamed', { sign: id.slice(-4).toUpperCase() });
}

export const seenWords = ({ seenAt }: CampDevice, now: number): string =>
  ago(new Date(Math.min(seenAt ?? now, now)).toISOString(), now);

/** Everything that a device said of itself, what is unsent first; nothing of what it does not know. */
export function stateWords(report: DeviceReport): readonly string[] {
  const { unsent, clockOff, persistence, copies, room, ballast, battery } = report;
  const says = [unsent > 0 ? t('today.device.unsent', { count: unsent }) : t('today.device.sent')];
  if (clockOff !== null) says.push(clockWords(clockOff));
  says.push(t(copies === 2 ? 'today.device.copies.two' : 'today.device.copies.one'));
  if (persistence === 'promised') says.push(t('today.device.promised'));
  if (persistence === 'refused' || persistence === 'absent') says.push(t('today.device.not.promised'));
  if (room === 'last' || room === 'none') says.push(t('today.device.full'));
  else if (room === 'stuck') says.push(t('today.device.stuck'));
  else if (ballast > 0) says.push(t('today.device.ballast', { size: Math.round(ballast / 2 ** 20) }));
  if (battery !== null)
    says.push(
      t(battery.charging ? 'today.device.charging' : 'today.device.battery', {
        level: number(battery.level * 100, 0),
      }),
    );
  return says;
}

/** How far a clock is off, in the coarsest words that still tell. */
function clockWords(off: number): string {
  if (Math.abs(off) < clockAgrees) return t('today.device.clock.right');
  return t(off > 0 ? 'today.device.clock.ahead' : 'today.device.clock.behind', {
    off: spanWords(Math.abs(off)),
  });
}

function spanWords(span: number): string {
  if (span < 2 * minute) return `${number(span / 1000, 0)}\u00a0s`;
  if (span < 2 * hour) return `${number(span / minute, 0)}\u00a0min`;
  if (span < 2 * day) return `${number(span / hour, 0)}\u00a0h`;
  return t('today.device.clock.days', { count: Math.round(span / day) });
}
