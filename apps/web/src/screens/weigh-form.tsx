import { type Doubt, findThing, type HoleView, type PieceView, type RunView } from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { useDraft } from '../device/draft.ts';
import { keep, recall } from '../device/kept.ts';
import { ChoiceQuestion } from '../forms/choice-question.tsx';
import { FieldQuestion } from '../forms/field-question.tsx';
import { NumberQuestion } from '../forms/number-question.tsx';
import { askOf } from '../forms/plans.ts';
import { readingOf, type Typed, typedOf } from '../forms/typed.ts';
import { t } from '../texts/t.ts';
import { Doubts } from './doubts.tsx';
import { standing } from './hole.ts';
import { refusalLines } from './refusal-lines.ts';
import { Readings } from './thing-list.tsx';

const steps = ['mass', 'diameterTop', 'diameterBottom'] as const;
const weighed = ['tare', ...steps];

interface WeighDraft {
  /** The piece at hand; a draft of another one is begun anew. */
  readonly piece: string;
  readonly at: number;
  readonly readings: Readonly<Record<string, string>>;
  readonly held: Typed | null;
  readonly skipped: readonly string[];
}

const empty: WeighDraft = { piece: '', at: 0, readings: {}, held: null, skipped: [] };

/** Pieces that nobody has weighed yet, top first. */
export const unweighed = (run: RunView): readonly PieceView[] =>
  standing(run.pieces).filter((piece) => piece.readings.mass === undefined);

/** Masses and diameters of a run's pieces, one after the other; the tare is asked once and remembered. */
export function WeighForm(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly run: RunView;
  readonly onBack: () => void;
}) {
  const { book, hole, run, onBack } = props;
  const campaign = book.campaign;
  const tareName = `tare.${campaign?.id}`;
  const [tare, setTare] = useState(() => recall(tareName));
  const [taring, setTaring] = useState<Typed | null>(null);
  const draft = useDraft<WeighDraft>(`weigh:${run.id}`, empty);
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const [doubted, setDoubted] = useState<{ piece: string; doubts: readonly Doubt[] } | null>(null);
  if (campaign === null) return null;
  const pieces = standing(run.pieces);
  const piece = pieces.find(
    (one) => one.readings.mass === undefined && !draft.value.skipped.includes(one.id),
  );

  const asked = doubted ? findThing(campaign, doubted.piece)?.thing : undefined;
  if (doubted && asked)
    return (
      <div className="answer">
        <ChoiceQuestion
          title={asked.name}
          hint={
            <span className="say">
              <Readings book={book} thing={asked} only={weighed} />
            </span>
          }
          choices={[
            {
              key: 'next',
              usual: true,
              label: t(piece ? 'piece.next' : 'more.done'),
              onTake: () => setDoubted(null),
            },
          ]}
        >
          <Doubts book={book} thing={asked.id} doubts={doubted.doubts} />
        </ChoiceQuestion>
      </div>
    );
  if (!piece)
    return (
      <div className="answer">
        <ChoiceQuestion
          title={t('weigh.done', { name: run.name })}
          choices={[{ key: 'back', usual: true, label: t('weigh.back', { name: run.name }), onTake: onBack }]}
        >
          <ul className="list said">
            {pieces.map((one) => (
              <li key={one.id}>
                <b className="num">{one.name}</b> <Readings book={book} thing={one} only={weighed} />
              </li>
            ))}
          </ul>
        </ChoiceQuestion>
      </div>
    );
  if (tare === null || taring)
    return (
      <NumberQuestion
        title={t('weigh.tare')}
        typed={taring ?? { text: '', unit: 'g' }}
        onTyped={setTaring}
        units={['g', 'kg']}
        hint={t('weigh.tare.hint')}
        proposed={tare ? typedOf(tare, 'g') : null}
        onNext={(typed) => {
          keep(tareName, readingOf(typed));
          setTare(readingOf(typed));
          setTaring(null);
        }}
        without={{
          label: t('weigh.no.tare'),
          onTake: () => {
            keep(tareName, '');
            setTare('');
            setTaring(null);
          },
        }}
        onBack={taring && tare !== null ? () => setTaring(null) : onBack}
      />
    );

  const mine = draft.value.piece === piece.id ? draft.value : { ...empty, skipped: draft.value.skipped };
  // A diameter that somebody has read already is not asked again.
  const open = steps.filter((one) => piece.readings[one] === undefined);
  const step = open[mine.at] ?? 'mass';
  const ask = askOf('piece', step);
  const go = (change: Partial<WeighDraft>) => {
    setRefusals([]);
    draft.set({ ...mine, piece: piece.id, ...change });
  };
  const answer = async (text: string | null) => {
    const readings = text === null ? mine.readings : { ...mine.readings, [step]: text };
    if (mine.at < open.length - 1) {
      go({ readings, at: mine.at + 1, held: null });
      return;
    }
    const next = readings.mass === undefined ? [...mine.skipped, piece.id] : mine.skipped;
    if (Object.keys(readings).length > 0) {
      const isTared = readings.mass !== undefined && tare !== '' && piece.readings.tare === undefined;
      const withTare = isTared ? { tare, ...readings } : readings;
      const taken = await book.decide({ do: 'add', thing: piece.id, readings: withTare });
      if (!taken.ok) {
        setRefusals(refusalLines(taken.refusals));
        return;
      }
      if (taken.doubts.length > 0) setDoubted({ piece: piece.id, doubts: taken.doubts });
    }
    draft.set({ ...empty, skipped: next });
  };
  return (
    <>
      <FieldQuestion
        key={`${piece.id} ${step}`}
        asked={{ campaign, hole, kind: 'piece', readings: mine.readings, keepFile: book.keepFile }}
        ask={ask}
        title={t(`weigh.${step}`, { name: piece.name })}
        hint={
          step === 'mass'
            ? t('weigh.hint.mass', { at: pieces.indexOf(piece) + 1, of: pieces.length })
            : t('weigh.hint.diameter')
        }
        held={mine.held}
        onHeld={(held) => go({ held })}
        onTake={(text) => void answer(text)}
        onSkip={() => void answer(null)}
        onBack={mine.at > 0 ? () => go({ at: mine.at - 1, held: null }) : onBack}
        refusals={refusals}
      />
      {step === 'mass' ? (
        <button type="button" className="link below" onClick={() => setTaring({ text: '', unit: 'g' })}>
          {tare === '' ? t('weigh.tare.none') : t('weigh.tare.is', { tare: tare.replace(' ', '\u00a0') })}
        </button>
      ) : null}
    </>
  );
}
