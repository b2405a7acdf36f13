import { type FormEvent, type ReactNode, useState } from 'react';
import { ChoiceQuestion } from '../forms/choice-question.tsx';
import { Refusals } from '../forms/refusals.tsx';
import { t } from '../texts/t.ts';

/** Why a reading changes: the usual reasons with one tap, any other in words. */
export function WhyQuestion(props: {
  readonly says: ReactNode;
  readonly reasons: readonly string[];
  readonly refusals: readonly string[];
  readonly onReason: (reason: string) => void;
  readonly onBack: () => void;
}) {
  const [own, setOwn] = useState('');
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (own.trim() !== '') props.onReason(own.trim());
  };
  return (
    <ChoiceQuestion
      title={t('correct.why')}
      hint={<span className="change">{props.says}</span>}
      choices={props.reasons.map((reason) => ({
        key: reason,
        label: reason,
        onTake: () => props.onReason(reason),
      }))}
      onBack={props.onBack}
    >
      <form className="words note" onSubmit={send}>
        <label htmlFor="own-reason">{t('correct.own')}</label>
        <div className="beside">
          <input
            id="own-reason"
            value={own}
            maxLength={200}
            onChange={(event) => setOwn(event.target.value)}
          />
          <button type="submit" disabled={own.trim() === ''}>
            {t('correct.save')}
          </button>
        </div>
      </form>
      <Refusals says={props.refusals} />
    </ChoiceQuestion>
  );
}
