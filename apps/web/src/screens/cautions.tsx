import { useEffect, useRef } from 'react';
import { t } from '../texts/t.ts';

/** A shift is taken to last no longer than this; after it, or with another person, the cautions come again. */
const shiftHours = 8;

const place = (campaign: string) => `firnbook.cautions.${campaign}`;

export function cautionsSeen(campaign: string, person: string | null, now: number): boolean {
  const [who, when] = (localStorage.getItem(place(campaign)) ?? '').split(' ');
  return who === person && now - Number(when) < shiftHours * 3_600_000;
}

export function keepCautionsSeen(campaign: string, person: string | null, now: number): void {
  localStorage.setItem(place(campaign), `${person} ${now}`);
}

const drilling = [
  'caution.drill.rotating',
  'caution.drill.winch',
  'caution.drill.lifting',
  'caution.drill.fumes',
  'caution.drill.cold',
  'caution.drill.altitude',
] as const;

/** Before the first form of a shift at the drill, never over an open one. */
export function Cautions({ onSeen }: { readonly onSeen: () => void }) {
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => head.current?.focus({ preventScroll: true }), []);
  return (
    <section className="question cautions" aria-labelledby="cautions-title">
      <h1 id="cautions-title" ref={head} tabIndex={-1}>
        {t('caution.title')}
      </h1>
      <ul>
        {drilling.map((key) => (
          <li key={key}>{t(key)}</li>
        ))}
      </ul>
      <p className="note">{t('caution.not.instead')}</p>
      <div className="question-row">
        <button type="button" className="act" onClick={onSeen}>
          {t('caution.seen')}
        </button>
      </div>
    </section>
  );
}
