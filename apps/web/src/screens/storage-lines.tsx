import { ballastBytes, isShort } from '@firnbook/storage/browser';
import type { DeviceHandle, Safety } from '../device/book.ts';
import { ago } from '../texts/ago.ts';
import { t } from '../texts/t.ts';

const size = ballastBytes / 2 ** 20;

/** How well this browser keeps the record: what it promised, the room by our own measure, and under which address. */
export function StorageLines({ device, safety }: { readonly device: DeviceHandle; readonly safety: Safety }) {
  const { persistence, room, triedAt, address } = device.storage;
  const tried = triedAt === null ? '' : ago(new Date(triedAt).toISOString(), Date.now());
  return (
    <div className="lines">
      {[...new Set([...device.lacks, ...safety.lacks])].map((lack) => (
        <p key={lack} className="quiet">
          {t(lack)}
        </p>
      ))}
      {persistence === 'promised' ? <p className="quiet">{t('room.promised')}</p> : null}
      <p className={isShort(room) ? 'call' : 'quiet'}>{t(`room.${room}`, { size, ago: tried })}</p>
      <p className="quiet">{t('room.address', { address })}</p>
      {safety.camp === 'unreachable' && safety.onlyHere > 0 ? (
        <p className="call">{t('room.address.away', { address })}</p>
      ) : null}
    </div>
  );
}
