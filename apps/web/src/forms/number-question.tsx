import { type FormEvent, type ReactNode, useEffect, useId, useRef } from 'react';
import { t } from '../texts/t.ts';
import { Icon } from './icons.tsx';
import { Keypad } from './keypad.tsx';
import { Refusals } from './refusals.tsx';
import { press, type Typed, typedFrom, typedNumber, type Unit } from './typed.ts';

export interface NumberQuestionProps {
  readonly title: string;
  readonly typed: Typed;
  readonly onTyped: (typed: Typed) => void;
  /** Units that the number may have; with two, a switch stands beside Next. */
  readonly units: readonly Unit[];
  readonly hint?: ReactNode;
  /** Taken by Next alone while nothing is typed. */
  readonly proposed?: Typed | null;
  readonly onNext: (typed: Typed) => void;
  readonly next?: string;
  readonly onBack?: (() => void) | undefined;
  /** An answer without a number: "not read", "not measured". */
  readonly without?: { readonly label: string; readonly onTake: () => void };
  readonly refusals?: readonly string[];
}

/** One question, one number, twelve big keys, one Next. Touch, a keyboard and a scanner that types do the same. */
export function NumberQuestion(props: NumberQuestionProps) {
  const { title, typed, onTyped, units, hint, proposed, onNext, next, onBack, without, refusals } = props;
  const field = useRef<HTMLInputElement>(null);
  const beforeM = useRef('');
  const ids = useId();
  const empty = typedNumber(typed.text) === null;
  const shown = empty && typed.text === '' && proposed ? proposed : typed;
  const takesProposal = shown !== typed;

  const type = (key: string) => {
    if (key === 'm' || key === 'c') {
      const unit: Unit = key === 'c' || beforeM.current === 'c' ? 'cm' : 'm';
      if (units.includes(unit)) onTyped({ ...typed, unit });
    } else
      onTyped({ ...typed, text: press(typed.text, key), ...(takesProposal ? { unit: shown.unit } : {}) });
    beforeM.current = key;
  };
  const take = (event?: FormEvent) => {
    event?.preventDefault();
    if (takesProposal) onNext(shown);
    else if (!empty) onNext(typed);
    else field.current?.focus();
  };

  // biome-ignore lint/correctness/useExhaustiveDependencies: the field takes the keys at each new question.
  useEffect(() => {
    field.current?.focus({ preventScroll: true });
  }, [title]);

  useEffect(() => {
    // Keys pressed while nothing or a button has the focus still belong to the question on screen.
    const onKey = (event: KeyboardEvent) => {
      const at = event.target as HTMLElement;
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const over = document.querySelector('dialog[open]');
      if (over && !over.contains(field.current)) return;
      if (at === field.current || at.matches('input, textarea, select')) return;
      if (/^[\d.,]$/.test(event.key)) type(event.key);
      else if (event.key === 'Backspace') type('back');
      else return;
      event.preventDefault();
      field.current?.focus({ preventScroll: true });
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  });

  const other = units.find((unit) => unit !== shown.unit);
  return (
    <form className="question" onSubmit={take} aria-labelledby={`${ids}-title`} autoComplete="off">
      <div className="question-head">
        {onBack ? (
          <button type="button" className="back" onClick={onBack} aria-label={t('form.back')}>
            <Icon name="left" />
          </button>
        ) : null}
        <h1 id={`${ids}-title`}>
          <label htmlFor={`${ids}-field`}>{title}</label>
        </h1>
      </div>
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
            if (event.key === 'Backspace' || /^[\d.,mc]$/.test(event.key)) {
              event.preventDefault();
              type(event.key === 'Backspace' ? 'back' : event.key);
            }
          }}
          onChange={(event) => onTyped({ ...typed, text: typedFrom(event.target.value) })}
        />
        <span className="num unit" id={`${ids}-unit`}>
          {shown.unit}
        </span>
      </div>
      <p className="hint" id={`${ids}-hint`}>
        {hint}
      </p>
      <Refusals says={refusals ?? []} />
      <Keypad onKey={type} />
      <div className="question-row">
        {other !== undefined && !takesProposal ? (
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
