import type { Doubt, HoleView, RunView } from '@firnbook/campaign';
import type { BookHandle } from '../device/book.ts';
import { ChoiceQuestion } from '../forms/choice-question.tsx';
import { t } from '../texts/t.ts';
import { Doubts } from './doubts.tsx';
import { Findings } from './findings.tsx';
import { Saved } from './saved.tsx';
import { runWords } from './sentences.ts';

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
            {runWords(hole, book.depths[hole.id], run)}
          </span>
        }
        choices={[
          { key: 'next', usual: true, label: t('run.next'), onTake: onNext },
          { key: 'correct', label: t('answer.correct', { name: run.name }), onTake: () => onCorrect(run) },
        ]}
      >
        <Saved book={book} entries={run.entries} />
        <Doubts book={book} thing={run.id} doubts={doubts} />
        <Findings
          book={book}
          hole={hole}
          depths={book.depths[hole.id]}
          things={[run.id]}
          except={{ thing: run.id, fields: doubts.map((doubt) => doubt.field) }}
        />
      </ChoiceQuestion>
    </div>
  );
}
