import type { Doubt, HoleView, PieceView, RunView, ThingView } from '@firnbook/campaign';
import type { BookHandle } from '../device/book.ts';
import { ChoiceQuestion } from '../forms/choice-question.tsx';
import { depth } from '../texts/numbers.ts';
import { type TextKey, t } from '../texts/t.ts';
import { Doubts } from './doubts.tsx';
import { Findings } from './findings.tsx';
import { Saved } from './saved.tsx';

const breakTexts: Readonly<Record<string, TextKey>> = {
  fits: 'answer.break.fits',
  ground: 'answer.break.ground',
  loss: 'answer.break.loss',
  unsure: 'answer.break.unsure',
  sawn: 'answer.break.sawn',
  handling: 'answer.break.handling',
};

/** What the piece comes to, and the way on: the next piece, or the run is done. */
export function PieceAnswer(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly run: RunView;
  readonly piece: PieceView | undefined;
  readonly doubts: readonly Doubt[];
  readonly onNext: () => void;
  readonly onDone: () => void;
  readonly onCorrect: (thing: ThingView) => void;
}) {
  const { book, hole, run, piece, doubts, onNext, onDone, onCorrect } = props;
  if (!piece) return null;
  const solved = book.depths[hole.id]?.pieces[piece.id];
  const says = [
    piece.readings.length
      ? t('answer.piece.length', { length: piece.readings.length.text })
      : t('answer.piece.not.measured'),
    t(breakTexts[piece.readings.topBreak?.text.toLowerCase() ?? ''] ?? 'answer.break.unsure'),
    solved ? t('answer.piece.solved', { top: depth(solved.top), bottom: depth(solved.bottom) }) : '',
  ];
  return (
    <div className="answer">
      <ChoiceQuestion
        title={t('answer.piece.title', { name: piece.name })}
        hint={
          <span className="say" role="status">
            {says.join(' ')}
          </span>
        }
        choices={[
          { key: 'next', usual: true, label: t('piece.next'), onTake: onNext },
          { key: 'done', label: t('piece.done'), onTake: onDone },
          {
            key: 'correct',
            label: t('answer.correct', { name: piece.name }),
            onTake: () => onCorrect(piece),
          },
        ]}
      >
        <Saved book={book} entries={piece.entries} />
        <Doubts book={book} thing={piece.id} doubts={doubts} />
        <Findings
          book={book}
          hole={hole}
          depths={book.depths[hole.id]}
          things={[run.id, ...run.pieces.map((one) => one.id)]}
          except={{ thing: piece.id, fields: doubts.map((doubt) => doubt.field) }}
        />
      </ChoiceQuestion>
    </div>
  );
}
