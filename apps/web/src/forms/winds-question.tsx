import type { ReactNode } from 'react';
import { t } from '../texts/t.ts';
import { ChoiceQuestion } from './choice-question.tsx';

/** As they lie on a compass card, row by row; degrees clockwise from true north. */
const card = [
  ['nw', 315],
  ['n', 0],
  ['ne', 45],
  ['w', 270],
  [null, 0],
  ['e', 90],
  ['sw', 225],
  ['s', 180],
  ['se', 135],
] as const;

export interface WindsQuestionProps {
  readonly title: string;
  readonly hint?: ReactNode;
  readonly onTake: (reading: string) => void;
  /** Degrees are typed instead. */
  readonly onType: () => void;
  readonly without?: { readonly label: string; readonly onTake: () => void } | undefined;
  readonly onBack?: (() => void) | undefined;
  readonly refusals?: readonly string[] | undefined;
}

/** Where the wind blows from: eight winds round a compass card. */
export function WindsQuestion(props: WindsQuestionProps) {
  const { title, hint, onTake, onType, without, onBack, refusals } = props;
  return (
    <ChoiceQuestion
      title={title}
      hint={hint}
      columns={3}
      choices={[
        ...card.map(([wind, degrees]) =>
          wind === null
            ? { key: 'degrees', label: t('winds.degrees'), onTake: onType }
            : { key: wind, label: t(`winds.${wind}`), onTake: () => onTake(`${degrees} °`) },
        ),
        ...(without ? [{ key: 'skip', label: without.label, onTake: without.onTake }] : []),
      ]}
      onBack={onBack}
      refusals={refusals}
    />
  );
}
