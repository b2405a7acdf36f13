import { useEffect, useState } from 'react';
import type { DeviceHandle } from '../device/book.ts';
import type { CampStick } from '../device/camp.ts';
import { ago } from '../texts/ago.ts';
import { t } from '../texts/t.ts';

/** The camp computer's sticks, one line each; nothing where it does not answer. */
export function StickLines({ device }: { readonly device: DeviceHandle }) {
  const [sticks, setSticks] = useState<readonly CampStick[] | null>(null);
  useEffect(() => {
    let isThere = true;
    device.sticks().then(
      (list) => isThere && setSticks(list),
      () => undefined,
    );
    return () => {
      isThere = false;
    };
  }, [device]);
  if (sticks === null) return null;
  if (sticks.length === 0) return <p className="quiet">{t('stick.none')}</p>;
  return (
    <ul className="list note">
      {sticks.map((stick) => (
        <li key={stick.id}>
          {stick.trouble === null ? (
            `${t(stick.isIn ? 'stick.in' : 'stick.out', { name: stick.name })}: ${
              stick.lastBackup === null
                ? t('stick.nothing')
                : t('stick.backup', { ago: ago(stick.lastBackup, Date.now()) })
            }`
          ) : (
            <span className="call">{t('stick.trouble', { name: stick.name, ...stick.trouble })}</span>
          )}
        </li>
      ))}
    </ul>
  );
}
