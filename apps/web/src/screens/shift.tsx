import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { observedNow } from '../device/observed.ts';
import { Refusals } from '../forms/refusals.tsx';
import { wordName } from '../texts/names.ts';
import { moment } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { standing } from './hole.ts';
import { initialsOf } from './people.ts';
import { refusalLines } from './refusal-lines.ts';

/** Who is at work now, as what; somebody comes, somebody goes, one shift tells the next what it must know. */
export function Shift(props: {
  readonly book: BookHandle;
  readonly onMake: (kind: 'duty' | 'handover') => void;
  /** Whether the list beside shows duties. */
  readonly shown: boolean;
  readonly onShow: () => void;
}) {
  const { book, onMake, shown, onShow } = props;
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const { campaign } = book;
  if (campaign === null) return null;
  const onDuty = standing(campaign.others.duty ?? []).filter((one) => one.readings.ended === undefined);
  const end = async (duty: string) => {
    const readings = { ended: observedNow(new Date()) };
    const taken = await book.decide({ do: 'add', thing: duty, readings });
    setRefusals(taken.ok ? [] : refusalLines(taken.refusals));
  };
  return (
    <section className="shift" aria-labelledby="shift">
      <button type="button" className="camp-kind" aria-pressed={shown} onClick={onShow}>
        <b id="shift">{t('camp.shift')}</b>
        {onDuty.length === 0 ? <small>{t('camp.shift.none')}</small> : null}
      </button>
      <Refusals says={refusals} />
      <ul>
        {onDuty.map((duty) => {
          const who = initialsOf(campaign, duty.readings.person?.text ?? '');
          const as = wordName('duty', 'as', duty.readings.as?.text ?? '').toLowerCase();
          return (
            <li key={duty.id}>
              <span>{t('camp.shift.on', { who, as, at: moment(duty.readings.began?.text ?? duty.at) })}</span>
              <button
                type="button"
                aria-label={t('camp.shift.ends', { who, as })}
                onClick={() => void end(duty.id)}
              >
                {t('camp.shift.end')}
              </button>
            </li>
          );
        })}
      </ul>
      <div className="answers">
        <button type="button" data-write="duty" onClick={() => onMake('duty')}>
          {t('camp.shift.comes')}
        </button>
        <button type="button" data-write="handover" onClick={() => onMake('handover')}>
          {t('camp.shift.over')}
        </button>
      </div>
    </section>
  );
}
