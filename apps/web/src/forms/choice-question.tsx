import { type ReactNode, useId, useLayoutEffect, useRef } from 'react';
import { QuestionHead } from './question-head.tsx';
import { Refusals } from './refusals.tsx';
import { walkButtons } from './walk.ts';

export interface Choice {
  readonly key: string;
  readonly label: string;
  readonly hint?: string | undefined;
  /** The way on, in the colour that says: touch here. */
  readonly usual?: boolean;
  /** One of several that can be said at once, and whether it is. */
  readonly pressed?: boolean;
  readonly onTake: () => void;
}

export interface ChoiceQuestionProps {
  readonly title: string;
  readonly hint?: ReactNode;
  readonly choices: readonly Choice[];
  /** Buttons side by side where the words are short. */
  readonly columns?: 2 | 3 | undefined;
  readonly onBack?: (() => void) | undefined;
  readonly refusals?: readonly string[] | undefined;
  readonly children?: ReactNode;
}

/** One question answered by one big button. Arrows walk, Enter takes, the first (usual) answer has the focus. */
export function ChoiceQuestion({
  title,
  hint,
  choices,
  columns,
  onBack,
  refusals,
  children,
}: ChoiceQuestionProps) {
  const list = useRef<HTMLDivElement>(null);
  const id = useId();
  // biome-ignore lint/correctness/useExhaustiveDependencies: the usual answer takes the focus at each new question.
  useLayoutEffect(() => {
    list.current?.querySelector('button')?.focus({ preventScroll: true });
  }, [title]);
  return (
    <div className="question">
      <QuestionHead id={id} title={title} onBack={onBack} />
      {hint ? <p className="hint">{hint}</p> : null}
      <Refusals says={refusals ?? []} />
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out as a grid everywhere. */}
      <div
        className={columns ? `choices columns-${columns}` : 'choices'}
        role="group"
        aria-labelledby={id}
        ref={list}
        onKeyDown={walkButtons}
      >
        {choices.map((choice) => (
          <button
            key={choice.key}
            type="button"
            data-choice={choice.key}
            className={choice.usual ? 'act' : undefined}
            aria-pressed={choice.pressed}
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
