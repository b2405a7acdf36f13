import type { Doubt, HoleView, RunView } from '@firnbook/campaign';
import type { BookHandle } from '../device/book.ts';
import { ChoiceQuestion } from '../forms/choice-question.tsx';
import { depth, metres, shortLength } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { Doubts } from './doubts.tsx';
import { Findings } from './findings.tsx';
import { benched, drilled, standing } from './hole.ts';
import { Saved } from './saved.tsx';

/** What the run comes to, in words that the crew can read to each other. */
export function runSentences(book: BookHandle, hole: HoleView, run: RunView): readonly string[] {
  const advance = drilled(run);
  const solved = book.depths[hole.id]?.runs[run.id];
  const core = benched(run);
  const pieces = standing(run.pieces).length;
  const gone = advance === null ? 0 : advance - core;
  return [
    advance === null
      ? t('answer.run.logged', { name: run.name })
      : t('answer.run.drilled', { name: run.name, advance: metres(advance) }),
    run.nothingRecovered ? t('answer.run.nothing') : '',
    pieces > 0 ? t('answer.run.core', { count: pieces, core: metres(core) }) : '',
    pieces > 0 && advance !== null && gone > 0.0195
      ? t('answer.run.less', { length: shortLength(gone) })
      : '',
    pieces > 0 && advance !== null && gone < -0.0195
      ? t('answer.run.more', { length: shortLength(-gone) })
      : '',
    solved ? t('answer.run.bottom', { depth: depth(solved.holeBottom) }) : '',
    solved && !run.nothingRecovered && pieces > 0 && solved.stub.value >= 0.0095
      ? t('answer.run.stub', { length: shortLength(solved.stub.value), sd: shortLength(solved.stub.sd) })
      : '',
  ].filter((sentence) => sentence !== '');
}

export function RunAnswer(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  /** Id of the run that was just logged. */
  readonly run: string;
  readonly doubts: readonly Doubt[];
  readonly onNext: () => void;
  readonly onCorrect: (run: RunView) => void;
}) {
  const { book, hole, doubts, onNext, onCorrect } = props;
  const run = hole.runs.find((one) => one.id === props.run);
  if (!run) return null;
  return (
    <div className="answer">
      <ChoiceQuestion
        title={t('answer.run.title', { name: run.name })}
        hint={
          <span className="say" role="status">
            {runSentences(book, hole, run).join(' ')}
          </span>
        }
        choices={[
          { key: 'next', usual: true, label: t('run.next'), onTake: onNext },
          { key: 'correct', label: t('answer.correct', { name: run.name }), onTake: () => onCorrect(run) },
        ]}
      >
        <Saved book={book} entries={run.entries} />
        <Doubts book={book} thing={run.id} doubts={doubts} />
        <Findings book={book} hole={hole} depths={book.depths[hole.id]} things={[run.id]} />
      </ChoiceQuestion>
    </div>
  );
}
