import type { HoleView } from '@firnbook/campaign';
import { CarryPart } from '../carry/carry-part.tsx';
import type { BookHandle, DeviceHandle } from '../device/book.ts';
import { Dialog } from '../forms/dialog.tsx';
import { Icon } from '../forms/icons.tsx';
import { t } from '../texts/t.ts';
import { StickLines } from './stick-lines.tsx';
import { StorageLines } from './storage-lines.tsx';
import { ticksOf } from './ticks.tsx';

/** The state of the record in whole sentences, and what a person can do about it. */
export function RecordDialog(props: {
  readonly book: BookHandle;
  readonly device: DeviceHandle;
  readonly hole: HoleView | undefined;
  readonly onClose: () => void;
}) {
  const { book, device, hole, onClose } = props;
  const { safety } = book;
  return (
    <Dialog title={t('record.title')} onClose={onClose}>
      <ul className="list record">
        {ticksOf(safety, Date.now()).map((tick) => (
          <li key={tick.key} className={`tick ${tick.state}`}>
            <Icon name={tick.state === 'safe' ? 'tick' : 'ring'} />
            <span>
              {tick.says}
              {tick.age ? `, ${tick.age}` : ''}
            </span>
          </li>
        ))}
      </ul>
      <StickLines device={device} />
      <p className="note">{t('record.total', { count: safety.total })}</p>
      {safety.camp === 'unreachable' ? <p className="call">{t('record.unreachable')}</p> : null}
      {safety.clockDrift !== null && Math.abs(safety.clockDrift) > 60_000 ? (
        <p className="call">
          {t('record.clock', { count: Math.round(Math.abs(safety.clockDrift) / 60_000) })}
        </p>
      ) : null}
      {hole && hole.notUnderstood > 0 ? <p>{t('record.unknown', { count: hole.notUnderstood })}</p> : null}
      {hole && hole.waiting > 0 ? <p>{t('record.waiting', { count: hole.waiting })}</p> : null}
      <StorageLines device={device} safety={safety} />
      <div className="answers dialog-row">
        <button type="button" onClick={book.exchangeNow}>
          {t('record.exchange')}
        </button>
      </div>
      <CarryPart book={book} />
      <form className="words note" onSubmit={(event) => event.preventDefault()}>
        <label htmlFor="device-name">{t('record.device')}</label>
        <input
          id="device-name"
          defaultValue={device.name}
          maxLength={40}
          onBlur={(event) => {
            const name = event.target.value.trim();
            if (name !== '' && name !== device.name) device.setName(name);
          }}
        />
      </form>
    </Dialog>
  );
}
