import type { ThingView } from '@firnbook/campaign';
import { type ReactNode, useState } from 'react';
import { t } from '../texts/t.ts';
import { ChoiceQuestion } from './choice-question.tsx';
import { NumberQuestion } from './number-question.tsx';
import { type Typed, typedNumber } from './typed.ts';

/** More buttons at once would not fit under one thumb. */
const atOnce = 6;

export interface ThingQuestionProps {
  readonly title: string;
  readonly hint?: ReactNode;
  /** What may be picked, oldest first. */
  readonly things: readonly ThingView[];
  readonly nameOf: (thing: ThingView) => string;
  readonly onTake: (id: string) => void;
  readonly without?: { readonly label: string; readonly onTake: () => void } | undefined;
  readonly onBack?: (() => void) | undefined;
  readonly refusals?: readonly string[] | undefined;
}

/** Another thing: the newest as big buttons, older ones page by page; a run also by its number. */
export function ThingQuestion(props: ThingQuestionProps) {
  const { title, hint, things, nameOf, onTake, without, onBack, refusals } = props;
  const [page, setPage] = useState(0);
  const [byNumber, setByNumber] = useState<Typed | null>(null);
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const newest = [...things].reverse();
  const shown = newest.slice(page * atOnce, (page + 1) * atOnce);
  const numbered = things.every((one) => one.kind === 'run');
  const isMore = newest.length > (page + 1) * atOnce;
  if (byNumber)
    return (
      <NumberQuestion
        title={t('thing.run.number')}
        typed={byNumber}
        onTyped={setByNumber}
        units={['']}
        onNext={({ text }) => {
          const found = things.find((one) => one.readings.number?.value === typedNumber(text));
          if (found) onTake(found.id);
          else setWrong([t('correct.no.run', { number: text })]);
        }}
        refusals={wrong}
        onBack={() => setByNumber(null)}
      />
    );
  return (
    <ChoiceQuestion
      title={title}
      hint={things.length === 0 ? t('thing.none') : hint}
      choices={[
        ...shown.map((one) => ({ key: one.id, label: nameOf(one), onTake: () => onTake(one.id) })),
        ...(isMore
          ? [
              {
                key: 'older',
                label: t(numbered ? 'thing.other.run' : 'thing.older'),
                onTake: () => (numbered ? setByNumber({ text: '', unit: '' }) : setPage(page + 1)),
              },
            ]
          : []),
        ...(without ? [{ key: 'skip', label: without.label, onTake: without.onTake }] : []),
      ]}
      onBack={page > 0 ? () => setPage(page - 1) : onBack}
      refusals={refusals}
    />
  );
}
