import type { Doubt, HoleView, RunView } from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { ChoiceQuestion } from '../forms/choice-question.tsx';
import { Later } from '../forms/later.tsx';
import { t } from '../texts/t.ts';
import { BenchVerdict } from './bench-verdict.tsx';
import { Doubts } from './doubts.tsx';
import { Findings } from './findings.tsx';
import { Saved } from './saved.tsx';
import { runWords } from './sentences.ts';

const change = () => import('./change-form.tsx').then(({ ChangeForm }) => ChangeForm);

/** What the run comes to, and the way on: the next one, or more that is known of this one. */
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
  const [more, setMore] = useState(false);
  if (!run) return null;
  if (more && run.withdrawn === null)
    return <Later part={change} book={book} thing={run} adding onDone={() => setMore(false)} />;
  return (
    <div className="answer">
      <ChoiceQuestion
        title={t('answer.run.title', { name: run.name })}
        hint={
          <>
            <span className="say" role="status">
              {runWords(hole, book.depths[hole.id], run)}
            </span>
            <BenchVerdict book={book} hole={hole} run={run} />
          </>
        }
        choices={[
          { key: 'next', usual: true, label: t('run.next'), onTake: onNext },
          { key: 'more', label: t('more.of.run'), onTake: () => setMore(true) },
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
