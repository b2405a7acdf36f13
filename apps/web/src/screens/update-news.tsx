import type { DeviceHandle } from '../device/book.ts';
import { sayHere } from '../texts/say-here.ts';
import { t } from '../texts/t.ts';

/** A new version of the screens waits: taken by a person, or what it waits for. */
export function UpdateNews({ device }: { readonly device: DeviceHandle }) {
  if (!device.updateReady) return null;
  return (
    <div className="news" role="status">
      <p>
        {t('update.ready')} {device.updateWaitsFor ? sayHere(device.updateWaitsFor) : ''}
      </p>
      {device.updateWaitsFor === null ? (
        <button type="button" onClick={device.takeUpdate}>
          {t('update.take')}
        </button>
      ) : null}
    </div>
  );
}
