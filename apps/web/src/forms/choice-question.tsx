import { type KeyboardEvent, type ReactNode, useEffect, useId, useRef } from 'react';
import { t } from '../texts/t.ts';
import { Icon } from './icons.tsx';
import { Refusals } from './refusals.tsx';

interface Choice {
  readonly key: string;
  readonly label: string;
  readonly hint?: string;
  /** The way on, in the colour that says: touch here. */
  readonly usual?: boolean;
  readonly onTake: () => void;
}

export interface ChoiceQuestionProps {
  readonly title: string;
  readonly hint?: ReactNode;
  readonly choices: readonly Choice[];
  readonly onBack?: (() => void) | undefined;
  readonly refusals?: readonly string[];
  readonly children?: ReactNode;
}

/** One question answered by one big button. Arrows walk, Enter takes, the first (usual) answer has the focus. */
export function ChoiceQuestion({ title, hint, choices, onBack, refusals, children }: ChoiceQuestionProps) {
  const list = useRef<HTMLDivElement>(null);
  const id = useId();
  // biome-ignore lint/correctness/useExhaustiveDependencies: the usual answer takes the focus at each new question.
  useEffect(() => {
    list.current?.querySelector('button')?.focus({ preventScroll: true });
  }, [title]);
  const walk = (event: KeyboardEvent<HTMLDivElement>) => {
    const step = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 }[event.key];
    if (event.key === 'Enter' && event.repeat) event.preventDefault();
    if (step === undefined) return;
    event.preventDefault();
    const buttons = [...event.currentTarget.querySelectorAll('button')];
    const at = buttons.indexOf(document.activeElement as HTMLButtonElement);
    buttons[(at + step + buttons.length) % buttons.length]?.focus();
  };
  return (
    <div className="question">
      <div className="question-head">
        {onBack ? (
          <button type="button" className="back" onClick={onBack} aria-label={t('form.back')}>
            <Icon name="left" />
          </button>
        ) : null}
        <h1 id={id}>{title}</h1>
      </div>
      {hint ? <p className="hint">{hint}</p> : null}
      <Refusals says={refusals ?? []} />
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out as a grid everywhere. */}
      <div className="choices" role="group" aria-labelledby={id} ref={list} onKeyDown={walk}>
        {choices.map((choice) => (
          <button
            key={choice.key}
            type="button"
            data-choice={choice.key}
            className={choice.usual ? 'act' : undefined}
            onClick={choice.onTake}
          >
            {choice.label}
            {choice.hint ? <small>{choice.hint}</small> : null}
          </button>
        ))}
      </div>
      {children}
    </div>
  );
}
