import type { HoleView } from '@firnbook/campaign';
import { useEffect, useMemo, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { ChoiceQuestion } from '../forms/choice-question.tsx';
import '../texts/for-calculator.ts';
import { t } from '../texts/t.ts';
import './calculator.css';
import { calculatorKey } from './calculator-key.ts';
import { QuestionView } from './question-view.tsx';
import { questions } from './questions.ts';

/**
 * Five questions that a camp asks every day, answered over whatever stands open, with or without a campaign. What the
 * book knows is filled in; nothing is written to it.
 */
export function Calculator(props: {
  /** Null where no campaign is open. */
  readonly book: BookHandle | null;
  readonly hole: HoleView | undefined;
}) {
  const { book, hole } = props;
  const [key, setKey] = useState<string | null>(null);
  const question = questions.find((one) => one.key === key);
  const campaign = book?.campaign ?? null;
  const depths = hole === undefined ? null : (book?.depths[hole.id] ?? null);
  const density = hole === undefined ? null : (book?.densities[hole.id] ?? null);
  const open = useMemo(
    () => (campaign === null ? null : { campaign, hole: hole ?? null, depths, density }),
    [campaign, hole, depths, density],
  );
  const watch = question?.readsDensity ? book?.watchDensity : undefined;
  const watched = hole?.id;
  useEffect(() => (watched === undefined ? undefined : watch?.(watched)), [watch, watched]);
  return (
    <div className="calculator">
      {question ? (
        <QuestionView key={question.key} question={question} book={open} onBack={() => setKey(null)} />
      ) : (
        <ChoiceQuestion
          title={t('calc.ask')}
          hint={
            <>
              {t(open === null ? 'calc.hint.alone' : 'calc.hint')}{' '}
              <span className="calc-key">{t('calc.hint.key', { key: calculatorKey })}</span>
            </>
          }
          choices={questions.map((one) => ({
            key: one.key,
            label: t(`calc.${one.key}`),
            hint: t(`calc.${one.key}.hint`),
            onTake: () => setKey(one.key),
          }))}
        />
      )}
    </div>
  );
}
