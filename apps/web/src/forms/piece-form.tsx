import { useState } from 'react';
import { metres, shortLength } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { ChoiceQuestion } from './choice-question.tsx';
import { NumberQuestion } from './number-question.tsx';
import { readingOf, type Typed } from './typed.ts';

type Step = 'break' | 'loss' | 'length';
type TopBreak = 'fits' | 'loss' | 'unsure';

export interface PieceDraft {
  readonly step: Step;
  readonly topBreak: TopBreak | '';
  readonly loss: Typed;
  readonly length: Typed;
}

export const emptyPieceDraft: PieceDraft = {
  step: 'break',
  topBreak: '',
  loss: { text: '', unit: 'cm' },
  length: { text: '', unit: 'cm' },
};

export interface PieceFormProps {
  readonly draft: PieceDraft;
  readonly onDraft: (draft: PieceDraft) => void;
  /** Name of the run. */
  readonly run: string;
  readonly number: number;
  /** What the top is held against: the piece or the run above. */
  readonly above: string;
  readonly before: { readonly number: number; readonly length: number } | null;
  /** Metres by the driller's depths, and what of it is not on the bench yet. */
  readonly drilled: number | null;
  readonly left: number | null;
  readonly onSave: (readings: Readonly<Record<string, string>>) => Promise<readonly string[]>;
}

/** One piece of core: how its top meets the ice above, the ice lost there, its length. */
export function PieceForm(props: PieceFormProps) {
  const { draft, onDraft, run, number, above, before, drilled, left, onSave } = props;
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const go = (change: Partial<PieceDraft>) => {
    setRefusals([]);
    onDraft({ ...draft, ...change });
  };
  const save = async (length: Typed) => {
    onDraft({ ...draft, length });
    setRefusals(
      await onSave({
        number: String(number),
        topBreak: draft.topBreak,
        ...(draft.topBreak === 'loss' && draft.loss.text !== '' ? { loss: readingOf(draft.loss) } : {}),
        ...(length.text === '' ? {} : { length: readingOf(length) }),
      }),
    );
  };
  switch (draft.step) {
    case 'break':
      return (
        <ChoiceQuestion
          title={t('piece.ask.break', { run, number, above })}
          choices={[
            {
              key: 'fits',
              label: t('break.fits'),
              hint: t('break.fits.hint'),
              onTake: () => go({ topBreak: 'fits', step: 'length' }),
            },
            {
              key: 'loss',
              label: t('break.loss'),
              hint: t('break.loss.hint'),
              onTake: () => go({ topBreak: 'loss', step: 'loss' }),
            },
            {
              key: 'unsure',
              label: t('break.unsure'),
              hint: t('break.unsure.hint'),
              onTake: () => go({ topBreak: 'unsure', step: 'length' }),
            },
          ]}
        />
      );
    case 'loss':
      return (
        <NumberQuestion
          title={t('piece.ask.loss', { run, number })}
          typed={draft.loss}
          onTyped={(loss) => onDraft({ ...draft, loss })}
          units={['cm', 'm']}
          hint={t('piece.hint.loss')}
          onNext={(loss) => go({ loss, step: 'length' })}
          onBack={() => go({ step: 'break' })}
          without={{
            label: t('piece.loss.unknown'),
            onTake: () => go({ loss: { ...draft.loss, text: '' }, step: 'length' }),
          }}
        />
      );
    case 'length':
      return (
        <NumberQuestion
          title={t('piece.ask.length', { run, number })}
          typed={draft.length}
          onTyped={(length) => onDraft({ ...draft, length })}
          units={['cm', 'm']}
          hint={lengthHint(before, drilled, left)}
          onNext={(length) => void save(length)}
          without={{
            label: t('form.not.measured'),
            onTake: () => void save({ ...draft.length, text: '' }),
          }}
          onBack={() => go({ step: draft.topBreak === 'loss' ? 'loss' : 'break' })}
          refusals={refusals}
        />
      );
  }
}

function lengthHint(before: PieceFormProps['before'], drilled: number | null, left: number | null): string {
  const first = before
    ? t('piece.hint.before', { number: before.number, length: shortLength(before.length) })
    : '';
  if (drilled === null) return first;
  const of = { drilled: metres(drilled), left: shortLength(Math.max(0, left ?? 0)) };
  if (!before) return t('piece.hint.first', of);
  return `${first} ${left !== null && left > 0.005 ? t('piece.hint.left', of) : t('piece.hint.nothing.left', of)}`;
}
