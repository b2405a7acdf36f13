import { type FormEvent, type ReactNode, useId, useLayoutEffect, useRef } from 'react';
import { t } from '../texts/t.ts';
import { Icon } from './icons.tsx';
import { Keypad } from './keypad.tsx';
import { QuestionHead } from './question-head.tsx';
import { Refusals } from './refusals.tsx';
import { press, type Typed, typedFrom, typedNumber, unitTyped } from './typed.ts';

export interface NumberQuestionProps {
  readonly title: string;
  readonly typed: Typed;
  readonly onTyped: (typed: Typed) => void;
  /** Units that the number may have; with two and more, a switch stands beside Next. */
  readonly units: readonly string[];
  /** It may lie below zero: a key for the sign stands before the number. */
  readonly signed?: boolean | undefined;
  readonly hint?: ReactNode;
  /** Taken by Next alone while nothing is typed. */
  readonly proposed?: Typed | null | undefined;
  readonly onNext: (typed: Typed) => void;
  readonly next?: string | undefined;
  readonly onBack?: (() => void) | undefined;
  /** An answer without a number: "not read", "not measured". */
  readonly without?: { readonly label: string; readonly onTake: () => void } | undefined;
  readonly refusals?: readonly string[] | undefined;
}

/** One question, one number, twelve big keys, one Next. Touch, a keyboard and a scanner that types do the same. */
export function NumberQuestion(props: NumberQuestionProps) {
  const { title, typed, onTyped, units, signed, hint, proposed, onNext, next, onBack, without, refusals } =
    props;
  const field = useRef<HTMLInputElement>(null);
  const letters = useRef('');
  const ids = useId();
  const empty = typedNumber(typed.text) === null;
  const shown = empty && !/\d/.test(typed.text) && proposed ? proposed : typed;
  const takesProposal = shown !== typed;

  const type = (key: string) => {
    if (/^[a-z%°]$/i.test(key)) {
      letters.current += key;
      const unit = unitTyped(letters.current, units);
      if (unit !== undefined) onTyped({ ...typed, unit });
      return;
    }
    letters.current = '';
    const text = press(typed.text, key, { signed });
    onTyped({ ...typed, text, ...(takesProposal ? { unit: shown.unit } : {}) });
  };
  const take = (event?: FormEvent) => {
    event?.preventDefault();
    if (takesProposal) onNext(shown);
    else if (!empty) onNext(typed);
    else field.current?.focus();
  };

  // biome-ignore lint/correctness/useExhaustiveDependencies: the field takes the keys at each new question.
  useLayoutEffect(() => {
    field.current?.focus({ preventScroll: true });
  }, [title]);

  useLayoutEffect(() => {
    // Keys pressed while nothing or a button has the focus still belong to the question on screen.
    const onKey = (event: KeyboardEvent) => {
      const at = event.target as HTMLElement;
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const over = document.querySelector('dialog[open]');
      if (over && !over.contains(field.current)) return;
      if (at === field.current || at.matches('input, textarea, select')) return;
      if (/^[\d.,-]$/.test(event.key)) type(event.key);
      else if (event.key === 'Backspace') type('back');
      else return;
      event.preventDefault();
      field.current?.focus({ preventScroll: true });
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  });

  const other = units[(units.indexOf(shown.unit) + 1) % units.length];
  const below = shown.text.startsWith('-');
  return (
    <form className="question" onSubmit={take} aria-labelledby={`${ids}-title`} autoComplete="off">
      <QuestionHead
        id={`${ids}-title`}
        title={<label htmlFor={`${ids}-field`}>{title}</label>}
        onBack={onBack}
      />
      <div className="field-row">
        {signed ? (
          <button
            type="button"
            className="sign num"
            tabIndex={-1}
            aria-label={t(below ? 'form.sign.below' : 'form.sign.above')}
            onPointerDown={(event) => event.preventDefault()}
            onClick={() => type('-')}
          >
            {below ? '\u2212' : '+'}
          </button>
        ) : null}
        <div className={takesProposal ? 'field proposed' : 'field'}>
          <input
            ref={field}
            id={`${ids}-field`}
            className="num"
            type="text"
            inputMode="none"
            autoComplete="off"
            autoCorrect="off"
            spellCheck={false}
            enterKeyHint="next"
            value={shown.text}
            aria-describedby={`${ids}-unit ${ids}-hint`}
            aria-invalid={refusals && refusals.length > 0 ? true : undefined}
            onKeyDown={(event) => {
              if (event.ctrlKey || event.metaKey || event.altKey) return;
              if (event.key === 'Enter' && event.repeat) event.preventDefault();
              if (event.key === 'Backspace' || /^[\d.,a-z%°-]$/i.test(event.key)) {
                event.preventDefault();
                type(event.key === 'Backspace' ? 'back' : event.key);
              }
            }}
            onChange={(event) => onTyped({ ...typed, text: typedFrom(event.target.value, { signed }) })}
          />
          <span className="num unit" id={`${ids}-unit`}>
            {shown.unit}
          </span>
        </div>
      </div>
      <p className="hint" id={`${ids}-hint`}>
        {hint}
      </p>
      <Refusals says={refusals ?? []} />
      <Keypad onKey={type} />
      <div className="question-row">
        {other !== undefined && other !== shown.unit && !takesProposal ? (
          <button
            type="button"
            onClick={() => onTyped({ text: typed.text, unit: other })}
            onPointerDown={(event) => event.preventDefault()}
          >
            <span className="hidden">{t('form.unit.is')} </span>
            {shown.unit} <Icon name="right" />
            <span className="hidden">{t('form.unit.to')}</span> {other}
          </button>
        ) : null}
        {without ? (
          <button type="button" onClick={without.onTake}>
            {without.label}
          </button>
        ) : null}
        <button type="submit" className="act">
          {takesProposal ? t('form.proposed') : (next ?? t('form.next'))}
        </button>
      </div>
    </form>
  );
}
