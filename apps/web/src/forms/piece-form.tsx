import { useState } from 'react';
import { wordHint, wordName } from '../texts/names.ts';
import { metres, shortLength } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { ChoiceQuestion } from './choice-question.tsx';
import { Later } from './later.tsx';
import { NumberQuestion } from './number-question.tsx';
import { readingOf, type Typed } from './typed.ts';

const unusualPiece = () => import('./unusual-piece.tsx').then(({ UnusualPiece }) => UnusualPiece);

/** The four that a logger sees all day, and the two that happen on the bench. */
const breaks = ['fits', 'ground', 'loss', 'unsure'] as const;
const benchBreaks = ['sawn', 'handling'] as const;
type TopBreak = (typeof breaks)[number] | (typeof benchBreaks)[number];

type Step = 'break' | 'benchBreak' | 'loss' | 'kerf' | 'length' | 'mass' | 'unusual';

export interface PieceDraft {
  readonly step: Step;
  readonly topBreak: TopBreak | '';
  readonly loss: Typed;
  readonly kerf: Typed;
  readonly length: Typed;
  readonly mass: Typed;
  /** What is unusual about it, by field. */
  readonly unusual: Readonly<Record<string, string>>;
}

export const emptyPieceDraft: PieceDraft = {
  step: 'break',
  topBreak: '',
  loss: { text: '', unit: 'cm' },
  kerf: { text: '', unit: 'mm' },
  length: { text: '', unit: 'cm' },
  mass: { text: '', unit: 'g' },
  unusual: {},
};

/** A piece that was found after its run had been logged. */
export const lateDraft: PieceDraft = { ...emptyPieceDraft, unusual: { found: 'later' } };

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
  /** Where the piece lies on the run's tray tape, in metres: then its length is not asked again. */
  readonly tape: { readonly from: number; readonly to: number } | null;
  /** Runs whose catcher may have scratched it, the newest first, its own left out. */
  readonly catchers: readonly { readonly id: string; readonly name: string }[];
  readonly onSave: (readings: Readonly<Record<string, string>>) => Promise<readonly string[]>;
}

/** One piece of core: how its top meets the ice above, the ice lost there, its length. */
export function PieceForm(props: PieceFormProps) {
  const { draft, onDraft, run, number, above, before, drilled, left, tape, onSave } = props;
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const of = { run, number };
  const isCrumbled = draft.unusual.ice === 'crumbled';
  const go = (change: Partial<PieceDraft>) => {
    setRefusals([]);
    onDraft({ ...draft, ...change });
  };
  const save = async (whole: PieceDraft) => {
    onDraft(whole);
    const { topBreak } = whole;
    const measured = (field: 'loss' | 'kerf' | 'length' | 'mass', isAsked = true) =>
      isAsked && whole[field].text !== '' ? { [field]: readingOf(whole[field]) } : {};
    setRefusals(
      await onSave({
        number: String(number),
        topBreak,
        ...measured('loss', topBreak === 'loss' || topBreak === 'ground'),
        ...measured('kerf', topBreak === 'sawn'),
        ...measured('length'),
        ...measured('mass', isCrumbled),
        ...whole.unusual,
      }),
    );
  };
  /** On from the break: to the length, unless the tape says it. */
  const onward = (change: Partial<PieceDraft>) => {
    if (tape) void save({ ...draft, ...change, step: 'break' });
    else go({ ...change, step: 'length' });
  };
  const takeBreak = (topBreak: TopBreak) => {
    if (topBreak === 'loss' || topBreak === 'ground') go({ topBreak, step: 'loss' });
    else if (topBreak === 'sawn') go({ topBreak, step: 'kerf' });
    else onward({ topBreak });
  };
  const breakChoice = (word: TopBreak) => ({
    key: word,
    label: wordName('piece', 'topBreak', word),
    hint: wordHint('piece', 'topBreak', word),
    onTake: () => takeBreak(word),
  });
  const count = Object.keys(draft.unusual).length;
  switch (draft.step) {
    case 'break':
      return (
        <ChoiceQuestion
          title={t('piece.ask.break', { ...of, above })}
          hint={
            tape ? t('piece.on.tape', { from: shortLength(tape.from), to: shortLength(tape.to) }) : undefined
          }
          choices={breaks.map(breakChoice)}
          refusals={refusals}
        >
          <div className="question-row seldom">
            <button type="button" data-choice="others" onClick={() => go({ step: 'benchBreak' })}>
              {t('word.others')}
            </button>
            <button type="button" data-choice="unusual" onClick={() => go({ step: 'unusual' })}>
              {count > 0 ? t('unusual.count', { count }) : t('unusual.open')}
            </button>
          </div>
        </ChoiceQuestion>
      );
    case 'benchBreak':
      return (
        <ChoiceQuestion
          title={t('piece.ask.break', { ...of, above })}
          choices={benchBreaks.map(breakChoice)}
          onBack={() => go({ step: 'break' })}
        />
      );
    case 'unusual':
      return (
        <Later
          part={unusualPiece}
          run={run}
          number={number}
          catchers={props.catchers}
          unusual={draft.unusual}
          onUnusual={(unusual: PieceDraft['unusual']) => go({ unusual })}
          onDone={() => {
            // Ice that has no place of its own has no break either.
            const isAstray = ['wall snow', 'chip plug', 'milled'].includes(draft.unusual.ice ?? '');
            if (isAstray) go({ topBreak: 'unsure', step: 'length' });
            else go({ step: 'break' });
          }}
        />
      );
    case 'loss':
      return (
        <NumberQuestion
          title={t('piece.ask.loss', of)}
          typed={draft.loss}
          onTyped={(loss) => onDraft({ ...draft, loss })}
          units={['cm', 'mm']}
          hint={t('piece.hint.loss')}
          onNext={(loss) => onward({ loss })}
          onBack={() => go({ step: 'break' })}
          without={{
            label: t('piece.loss.unknown'),
            onTake: () => onward({ loss: { ...draft.loss, text: '' } }),
          }}
          refusals={refusals}
        />
      );
    case 'kerf':
      return (
        <NumberQuestion
          title={t('piece.ask.kerf', of)}
          typed={draft.kerf}
          onTyped={(kerf) => onDraft({ ...draft, kerf })}
          units={['mm']}
          onNext={(kerf) => onward({ kerf })}
          onBack={() => go({ step: 'benchBreak' })}
          without={{
            label: t('form.not.measured'),
            onTake: () => onward({ kerf: { ...draft.kerf, text: '' } }),
          }}
          refusals={refusals}
        />
      );
    case 'length':
      return (
        <NumberQuestion
          title={t('piece.ask.length', of)}
          typed={draft.length}
          onTyped={(length) => onDraft({ ...draft, length })}
          units={['cm', 'm']}
          hint={isCrumbled ? t('piece.crumbled.hint') : lengthHint(before, drilled, left)}
          onNext={(length) => (isCrumbled ? go({ length, step: 'mass' }) : void save({ ...draft, length }))}
          without={{
            label: t('form.not.measured'),
            onTake: () => {
              const length = { ...draft.length, text: '' };
              if (isCrumbled) go({ length, step: 'mass' });
              else void save({ ...draft, length });
            },
          }}
          onBack={() =>
            go({ step: draft.topBreak === 'loss' || draft.topBreak === 'ground' ? 'loss' : 'break' })
          }
          refusals={refusals}
        />
      );
    case 'mass':
      return (
        <NumberQuestion
          title={t('piece.ask.mass', of)}
          typed={draft.mass}
          onTyped={(mass) => onDraft({ ...draft, mass })}
          units={['g', 'kg']}
          hint={t('piece.crumbled.hint')}
          onNext={(mass) => void save({ ...draft, mass })}
          without={{
            label: t('form.not.measured'),
            onTake: () => void save({ ...draft, mass: { ...draft.mass, text: '' } }),
          }}
          onBack={() => go({ step: 'length' })}
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
