import type { ReactNode } from 'react';
import { t } from '../texts/t.ts';
import { ChoiceQuestion } from './choice-question.tsx';
import { NumberQuestion } from './number-question.tsx';
import { readingOf, type Typed } from './typed.ts';

export interface HeightQuestionProps {
  readonly title: string;
  readonly hint?: ReactNode;
  readonly units: readonly string[];
  /** Empty while neither higher nor lower is said; begins with "+" or "-" then. */
  readonly held: Typed;
  readonly onHeld: (held: Typed) => void;
  readonly onTake: (reading: string) => void;
  readonly without?: { readonly label: string; readonly onTake: () => void } | undefined;
  readonly onBack?: (() => void) | undefined;
  readonly refusals?: readonly string[] | undefined;
}

/** A height against the first zero. Higher or lower first: no key for a minus is needed. */
export function HeightQuestion(props: HeightQuestionProps) {
  const { title, hint, units, held, onHeld, onTake, without, onBack, refusals } = props;
  const sign = /^[+-]/.exec(held.text)?.[0];
  const say = (next: string) => onHeld({ text: next, unit: held.unit });
  if (sign === undefined)
    return (
      <ChoiceQuestion
        title={title}
        hint={hint}
        choices={[
          { key: 'higher', label: t('zero.higher'), onTake: () => say('+') },
          { key: 'lower', label: t('zero.lower'), onTake: () => say('-') },
          { key: 'level', label: t('zero.level'), onTake: () => onTake(`0 ${held.unit}`) },
          ...(without ? [{ key: 'unknown', label: without.label, onTake: without.onTake }] : []),
        ]}
        refusals={refusals}
        onBack={onBack}
      />
    );
  return (
    <NumberQuestion
      title={sign === '-' ? t('zero.ask.lower') : t('zero.ask.higher')}
      typed={{ text: held.text.slice(1), unit: held.unit }}
      onTyped={(typed) => onHeld({ text: sign + typed.text, unit: typed.unit })}
      units={units}
      hint={hint}
      onNext={(typed) => onTake(`${sign === '-' ? '-' : ''}${readingOf(typed)}`)}
      refusals={refusals}
      onBack={() => say('')}
    />
  );
}
