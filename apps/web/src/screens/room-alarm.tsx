import { ballastBytes, isShort } from '@firnbook/storage/browser';
import type { BookHandle, DeviceHandle } from '../device/book.ts';
import { t } from '../texts/t.ts';
import { carryAway } from './carry-away.ts';

/**
 * The disk is full, or the browser writes nothing more: what still goes, and what a person has to do before the browser
 * erases everything.
 */
export function RoomAlarm({ book, device }: { readonly book: BookHandle; readonly device: DeviceHandle }) {
  const { room } = device.storage;
  if (!isShort(room)) return null;
  return (
    <div className="alarm">
      <p>{t(`room.${room}`, { size: ballastBytes / 2 ** 20 })}</p>
      <div className="alarm-row">
        <button type="button" onClick={book.exchangeNow}>
          {t('record.exchange')}
        </button>
        <button type="button" onClick={() => void carryAway(book)}>
          {t('record.carry')}
        </button>
        <button type="button" onClick={device.madeRoom}>
          {t('room.made')}
        </button>
      </div>
    </div>
  );
}
