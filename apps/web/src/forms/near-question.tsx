import { type ReactNode, useId, useLayoutEffect, useRef } from 'react';
import { number } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { QuestionHead } from './question-head.tsx';
import { Refusals } from './refusals.tsx';
import { walkButtons } from './walk.ts';

/** Values offered on either side of the last one. */
const reach = 7;

export interface NearQuestionProps {
  readonly title: string;
  readonly hint?: ReactNode;
  /** The last value, in `unit`. */
  readonly around: number;
  /** How far the values lie apart. */
  readonly step: number;
  readonly unit: string;
  readonly onTake: (reading: string) => void;
  /** Another value: what was typed already, or nothing. */
  readonly onType: (key: string) => void;
  readonly without?: { readonly label: string; readonly onTake: () => void } | undefined;
  readonly onBack?: (() => void) | undefined;
  readonly refusals?: readonly string[] | undefined;
}

/**
 * A value that changes little from one reading to the next, as a caliper's on one core: its neighbours are buttons,
 * each of which is a whole answer. None stands out, so that nobody is led to the last value.
 */
export function NearQuestion(props: NearQuestionProps) {
  const { title, hint, around, step, unit, onTake, onType, without, onBack, refusals } = props;
  const grid = useRef<HTMLDivElement>(null);
  const id = useId();
  const decimals = Math.max(0, -Math.floor(Math.log10(step)));
  const middle = Math.round(around / step);
  const values = Array.from({ length: 2 * reach + 1 }, (_, place) => (middle + place - reach) * step).filter(
    (value) => value > 0,
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: the grid takes the focus at each new question.
  useLayoutEffect(() => {
    grid.current?.querySelectorAll('button')[reach]?.focus({ preventScroll: true });
  }, [title]);
  useLayoutEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const over = document.querySelector('dialog[open]');
      if (event.ctrlKey || event.metaKey || event.altKey || (over && !over.contains(grid.current))) return;
      if (!/^[\d.,]$/.test(event.key) || (event.target as HTMLElement).matches('input, textarea')) return;
      event.preventDefault();
      onType(event.key);
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  });
  return (
    <div className="question near">
      <QuestionHead id={id} title={title} onBack={onBack} />
      <p className="hint">{hint}</p>
      <Refusals says={refusals ?? []} />
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out as a grid everywhere. */}
      <div className="pad" role="group" aria-labelledby={id} ref={grid} onKeyDown={walkButtons}>
        {values.map((value) => (
          <button
            key={value}
            type="button"
            className="num"
            data-value={value.toFixed(decimals)}
            onClick={() => onTake(`${value.toFixed(decimals)} ${unit}`)}
          >
            {number(value, decimals)}
          </button>
        ))}
      </div>
      <div className="question-row">
        {without ? (
          <button type="button" onClick={without.onTake}>
            {without.label}
          </button>
        ) : null}
        <button type="button" data-choice="type" onClick={() => onType('')}>
          {t('near.other')}
        </button>
      </div>
    </div>
  );
}
