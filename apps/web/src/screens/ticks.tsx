import { useEffect, useState } from 'react';
import type { Rest, Safety } from '../device/book.ts';
import { Icon } from '../forms/icons.tsx';
import { ago } from '../texts/ago.ts';
import { t } from '../texts/t.ts';

export interface Tick {
  readonly key: 'tablet' | 'camp' | 'second';
  readonly state: 'safe' | 'unsafe';
  readonly says: string;
  readonly age: string;
}

/** Three ticks that never lie: each says where the record is, or how much of it is not there and for how long. */
export function ticksOf(safety: Safety, now: number): readonly Tick[] {
  const waiting = safety.total - safety.onTablet;
  const away = safety.total - safety.onCamp;
  const since = safety.oldestOnlyHere === null ? '' : ago(safety.oldestOnlyHere, now);
  const seen = safety.campSeen === null ? '' : ago(safety.campSeen, now);
  return [
    waiting === 0
      ? safety.copies === 2
        ? { key: 'tablet', state: 'safe', says: t('tick.tablet'), age: '' }
        : { key: 'tablet', state: 'unsafe', says: t('tick.tablet.once'), age: '' }
      : { key: 'tablet', state: 'unsafe', says: t('tick.tablet.not', { count: waiting }), age: '' },
    away === 0 && safety.campSeen !== null
      ? { key: 'camp', state: 'safe', says: t('tick.camp'), age: seen }
      : {
          key: 'camp',
          state: 'unsafe',
          says: safety.campSeen === null ? t('tick.camp.never') : t('tick.camp.not', { count: away }),
          age: since,
        },
    secondTick(safety, now),
  ];
}

function secondTick({ second, total }: Safety, now: number): Tick {
  if (second === null) return { key: 'second', state: 'unsafe', says: t('tick.second.never'), age: '' };
  const away = total - second.entries;
  return {
    key: 'second',
    state: away === 0 ? 'safe' : 'unsafe',
    says: away === 0 ? t('tick.second') : t('tick.second.not', { count: away }),
    age: ago(second.at, now),
  };
}

/** Now, renewed once a minute: ages need no more, and the battery pays for it. */
function useMinute(): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 60_000);
    return () => clearInterval(timer);
  }, []);
  return now;
}

export function Ticks({ safety, onOpen }: { readonly safety: Safety; readonly onOpen: () => void }) {
  const now = useMinute();
  return (
    <button type="button" className="ticks" onClick={onOpen} aria-haspopup="dialog">
      <span className="hidden">{t('tick.open')}</span>
      {ticksOf(safety, Math.max(now, Date.now())).map((tick) => (
        <span key={tick.key} className={`tick ${tick.state}`}>
          <Icon name={tick.state === 'safe' ? 'tick' : 'ring'} />
          <span>
            {tick.says}
            {tick.age ? <span className="age">, {tick.age}</span> : null}
          </span>
        </span>
      ))}
    </button>
  );
}

const restState: Readonly<Record<Rest, 'unsafe' | 'half' | 'safe'>> = {
  saving: 'unsafe',
  once: 'unsafe',
  tablet: 'half',
  camp: 'safe',
  second: 'safe',
};

/** Where one entry rests, in a word with its sign. */
export function RestTick({ rest }: { readonly rest: Rest }) {
  return (
    <span className={`tick ${restState[rest]}`} data-rest={rest}>
      <Icon name={restState[rest] === 'unsafe' ? 'ring' : 'tick'} />
      <span>{t(`rest.${rest}`)}</span>
    </span>
  );
}
