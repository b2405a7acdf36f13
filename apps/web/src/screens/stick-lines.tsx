import { type ReactNode, useEffect, useState } from 'react';
import type { DeviceHandle } from '../device/book.ts';
import type { CampStick } from '../device/camp.ts';
import { Later } from '../forms/later.tsx';
import { isAtComputer } from '../sticks/gate.ts';
import { ago } from '../texts/ago.ts';
import { t } from '../texts/t.ts';

/** How often it is looked, ms. */
const lookAgain = 5_000;

const newSticks = () => import('../sticks/new-sticks.tsx').then(({ NewSticks }) => NewSticks);

/** The camp computer's sticks, one line each; on its own screen also those to be named. Nothing where it is silent. */
export function StickLines(props: {
  readonly device: DeviceHandle;
  /** Stands above the lines, where there are any. */
  readonly children?: ReactNode;
}) {
  const { device, children } = props;
  const [sticks, setSticks] = useState<readonly CampStick[] | null>(null);
  const [isHere, setHere] = useState(false);
  const [again, setAgain] = useState(0);
  useEffect(() => void isAtComputer().then(setHere), []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a stick was named: there is another line
  useEffect(() => {
    let isThere = true;
    const look = () =>
      device.sticks().then(
        (list) => isThere && setSticks(list),
        () => undefined,
      );
    void look();
    // A copy takes seconds to come, and somebody waits for it.
    const timer = setInterval(() => void look(), lookAgain);
    return () => {
      isThere = false;
      clearInterval(timer);
    };
  }, [device, again]);
  if (sticks === null) return null;
  return (
    <>
      {children}
      {sticks.length === 0 ? (
        <p className="quiet">{t('stick.none')}</p>
      ) : (
        <ul className="list note">
          {sticks.map((stick) => (
            <li key={stick.id}>
              {stick.trouble === null ? (
                stickWords(stick)
              ) : (
                <span className="call">{t('stick.trouble', { name: stick.name, ...stick.trouble })}</span>
              )}
            </li>
          ))}
        </ul>
      )}
      {isHere ? <Later part={newSticks} onNamed={() => setAgain((count) => count + 1)} /> : null}
    </>
  );
}

const stickWords = ({ name, isIn, lastBackup, carriesNetwork }: CampStick): string => {
  const where = t(isIn ? 'stick.in' : 'stick.out', { name });
  const copied =
    lastBackup === null ? t('stick.nothing') : t('stick.backup', { ago: ago(lastBackup, Date.now()) });
  return `${where}: ${copied}${carriesNetwork === false ? `; ${t('stick.bare')}` : ''}`;
};
