import type { HoleView, PieceView, ReadingView, RunView, ThingView } from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { depth, depthParts, moment, number } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { CorrectDialog } from './correct-dialog.tsx';
import { fieldsOf } from './fields.ts';
import { Findings } from './findings.tsx';
import { HowDialog } from './how-dialog.tsx';
import { initialsOf } from './people.ts';
import { ReadingText, readingFace, readingWords } from './reading-text.tsx';
import { restOf } from './saved.tsx';
import { RestTick } from './ticks.tsx';

/** Everything known about the ice that was touched: solved depths, readings with who and when, their history. */
export function ThisIce(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly run: RunView;
  readonly piece: PieceView | undefined;
}) {
  const { book, hole, run, piece } = props;
  const [how, setHow] = useState(false);
  const [correcting, setCorrecting] = useState<{ readonly thing: ThingView; readonly field?: string } | null>(
    null,
  );
  const campaign = book.campaign;
  if (!campaign) return null;
  const view = book.depths[hole.id];
  const ice = piece ? view?.pieces[piece.id] : undefined;
  const bottom = ice?.bottom ?? view?.runs[run.id]?.holeBottom;
  const thing: ThingView = piece ?? run;
  const parts = bottom ? depthParts(bottom) : null;
  const fact = (of: ThingView, field: string, label: string) => {
    const reading = of.readings[field];
    return reading ? (
      <Fact key={`${of.id} ${field}`} label={label}>
        <ReadingText campaign={campaign} thing={of} reading={reading} />
      </Fact>
    ) : null;
  };
  return (
    <aside className="this-ice" aria-labelledby="this-ice">
      <h2 id="this-ice">{t('ice.title')}</h2>
      {parts ? (
        <p className="big">
          {parts.figure}
          <small>{parts.rest}</small>
        </p>
      ) : (
        <p className="big quiet">{book.solving ? t('ice.solving') : t('ice.unsolved')}</p>
      )}
      <p className="quiet">
        {piece ? t('ice.bottom.of.piece', { name: piece.name }) : t('ice.bottom.of.hole', { name: run.name })}
        {' · '}
        {view ? (
          <button type="button" className="link" aria-haspopup="dialog" onClick={() => setHow(true)}>
            {t('ice.how')}
          </button>
        ) : (
          (book.unsolved[hole.id] ?? '')
        )}
      </p>
      {thing.withdrawn ? (
        <p className="call">
          {t('list.withdrawn', {
            by: initialsOf(campaign, thing.withdrawn.by),
            reason: thing.withdrawn.reason,
          })}
        </p>
      ) : null}
      <dl className="facts">
        {ice ? (
          <>
            <Fact label={t('ice.top')}>
              <span className="num">{depth(ice.top)}</span>
            </Fact>
            <Fact label={t('ice.range')}>
              <span className="num">{t('ice.range.of', range(ice.top))}</span>
            </Fact>
            <Fact label={t('ice.bottom')}>
              <span className="num">{depth(ice.bottom)}</span>
            </Fact>
            <Fact label={t('ice.range')}>
              <span className="num">{t('ice.range.of', range(ice.bottom))}</span>
            </Fact>
          </>
        ) : null}
        {piece
          ? fieldsOf('piece')
              .filter((form) => form.field !== 'number')
              .map((form) => fact(piece, form.field, t(form.label)))
          : null}
        <Fact label={t('ice.run')}>
          <b className="num">{run.name}</b>
          <span className="quiet">
            {' '}
            {t('list.by', { by: initialsOf(campaign, run.by), at: moment(run.at) })}
          </span>
        </Fact>
        {fieldsOf('run')
          .filter((form) => form.field !== 'number')
          .map((form) => fact(run, form.field, t(form.label)))}
      </dl>
      <div className="answers">
        <button type="button" onClick={() => setCorrecting({ thing })}>
          {t('answer.correct', { name: thing.name })}
        </button>
        {piece ? (
          <button type="button" onClick={() => setCorrecting({ thing: run })}>
            {t('answer.correct', { name: run.name })}
          </button>
        ) : null}
      </div>
      <div className="ask-place">
        <Findings book={book} hole={hole} depths={view} things={[thing.id, run.id]} />
      </div>
      <h3 className="history-title">{t('ice.history')}</h3>
      <ol className="list history">
        {(piece ? [...history(piece), ...history(run)] : history(run)).map((line) => (
          <li key={`${line.entry} ${line.field}`}>
            <span className="small quiet">
              {t('list.by', { by: initialsOf(campaign, line.by), at: moment(line.at) })}
              <RestTick rest={restOf(book, [line.entry])} />
            </span>
            <span>
              <b className="num">{line.name}</b> {line.label}{' '}
              {line.struck ? (
                <s className={line.face}>{line.text}</s>
              ) : (
                <span className={line.face}>{line.text}</span>
              )}
              {line.reason ? <span className="quiet"> {line.reason}</span> : null}
            </span>
          </li>
        ))}
      </ol>
      {how && view ? (
        <HowDialog hole={hole} run={run} piece={piece} view={view} onClose={() => setHow(false)} />
      ) : null}
      {correcting ? (
        <CorrectDialog
          book={book}
          thing={correcting.thing}
          field={correcting.field}
          onClose={() => setCorrecting(null)}
        />
      ) : null}
    </aside>
  );
}

function Fact({ label, children }: { readonly label: string; readonly children: React.ReactNode }) {
  return (
    <>
      <dt>{label}</dt>
      <dd>{children}</dd>
    </>
  );
}

function range(estimate: { readonly min: number; readonly max: number }) {
  return { min: number(estimate.min, 2), max: number(estimate.max, 2) };
}

interface Line {
  readonly entry: string;
  readonly field: string;
  readonly name: string;
  readonly label: string;
  readonly text: string;
  readonly by: string;
  readonly at: string;
  readonly reason?: string | undefined;
  readonly struck: boolean;
  readonly face: string;
}

/** Every claim on every reading of the thing, oldest first: nothing that was said is hidden. */
function history(thing: ThingView): readonly Line[] {
  const lines = fieldsOf(thing.kind)
    .filter((form) => form.field !== 'number')
    .flatMap((form) => {
      const reading = thing.readings[form.field];
      if (!reading) return [];
      const line = (
        one: Pick<ReadingView, 'entry' | 'text' | 'by' | 'at'> & { reason?: string },
        struck: boolean,
      ): Line => ({
        entry: one.entry,
        field: form.field,
        name: thing.name,
        label: t(form.label).toLowerCase(),
        text: readingWords(thing.kind, form.field, one.text),
        by: one.by,
        at: one.at,
        reason: one.reason,
        struck,
        face: readingFace(thing.kind, form.field),
      });
      return [
        ...reading.struck.map((one) => line(one, true)),
        ...reading.against.map((one) => line(one, false)),
        line(reading, false),
      ];
    });
  return lines.sort((a, b) => a.at.localeCompare(b.at));
}
