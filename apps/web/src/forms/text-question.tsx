import { type FormEvent, type ReactNode, useId, useLayoutEffect, useRef } from 'react';
import { t } from '../texts/t.ts';
import { QuestionHead } from './question-head.tsx';
import { Refusals } from './refusals.tsx';
import { walkButtons } from './walk.ts';

export interface TextQuestionProps {
  readonly title: string;
  readonly hint?: ReactNode;
  readonly text: string;
  readonly onText: (text: string) => void;
  /** Answers at hand, the usual one first: one tap instead of a keyboard. */
  readonly atHand: readonly string[];
  /** The first of them is the way on. */
  readonly proposes?: boolean;
  readonly long?: boolean | undefined;
  /** Most characters. */
  readonly most: number;
  readonly onTake: (text: string) => void;
  readonly without?: { readonly label: string; readonly onTake: () => void } | undefined;
  readonly onBack?: (() => void) | undefined;
  readonly refusals?: readonly string[] | undefined;
}

/** Words: what was said before as big buttons, anything else on the tablet's own keyboard. */
export function TextQuestion(props: TextQuestionProps) {
  const { title, hint, text, onText, atHand, proposes, long, most, onTake, without, onBack, refusals } =
    props;
  const box = useRef<HTMLDivElement>(null);
  const id = useId();
  // biome-ignore lint/correctness/useExhaustiveDependencies: the first answer at hand takes the focus at each new question.
  useLayoutEffect(() => {
    box.current
      ?.querySelector<HTMLElement>('.choices button, textarea, input')
      ?.focus({ preventScroll: true });
  }, [title]);
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (text.trim() !== '') onTake(text.trim());
  };
  const own = {
    id,
    value: text,
    maxLength: most,
    onChange: (event: { target: { value: string } }) => onText(event.target.value),
  };
  return (
    <div className="question" ref={box}>
      <QuestionHead id={`${id}-title`} title={title} onBack={onBack} />
      {hint ? <p className="hint">{hint}</p> : null}
      <Refusals says={refusals ?? []} />
      {atHand.length > 0 ? (
        // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out as a grid everywhere.
        <div className="choices" role="group" aria-labelledby={`${id}-title`} onKeyDown={walkButtons}>
          {atHand.map((one, place) => (
            <button
              key={one}
              type="button"
              data-choice={one}
              className={proposes && place === 0 ? 'act' : undefined}
              onClick={() => onTake(one)}
            >
              {one}
            </button>
          ))}
        </div>
      ) : null}
      <form className="words own" onSubmit={send}>
        <label htmlFor={id}>{t(atHand.length > 0 ? 'form.own.words' : 'form.words')}</label>
        {long ? <textarea {...own} rows={4} /> : <input {...own} autoComplete="off" />}
        <div className="question-row">
          {without ? (
            <button type="button" onClick={without.onTake}>
              {without.label}
            </button>
          ) : null}
          <button
            type="submit"
            className={proposes || text.trim() === '' ? undefined : 'act'}
            disabled={text.trim() === ''}
          >
            {t('form.next')}
          </button>
        </div>
      </form>
    </div>
  );
}
