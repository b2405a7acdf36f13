import type { CampaignView, HoleView, PieceView, ReadingView, RunView, ThingView } from '@firnbook/campaign';
import { type ReactNode, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { Later } from '../forms/later.tsx';
import { fieldName, fieldWords } from '../texts/names.ts';
import { depth, depthParts, moment, number } from '../texts/numbers.ts';
import '../texts/for-screens.ts';
import { t } from '../texts/t.ts';
import { CorrectDialog } from './correct-dialog.tsx';
import { fieldsOf } from './fields.ts';
import { Findings } from './findings.tsx';
import { initialsOf } from './people.ts';
import { ReadingText, readingFace, readingWords } from './reading-text.tsx';
import { restOf } from './saved.tsx';
import { SignedMark } from './signed-mark.tsx';
import { ThingList } from './thing-list.tsx';
import { RestTick } from './ticks.tsx';

const howDialog = () => import('./how-dialog.tsx').then(({ HowDialog }) => HowDialog);

/** Everything known about the ice that was touched: solved depths, readings with who and when, their history. */
export function ThisIce(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly run: RunView;
  readonly piece: PieceView | undefined;
  /** What is computed of this ice besides its depth. */
  readonly children?: ReactNode;
}) {
  const { book, hole, run, piece, children } = props;
  const [how, setHow] = useState(false);
  const [ids, setIds] = useState(false);
  const [correcting, setCorrecting] = useState<{ readonly thing: ThingView; readonly field?: string } | null>(
    null,
  );
  const campaign = book.campaign;
  if (!campaign) return null;
  const view = book.depths[hole.id];
  const ice = piece ? view?.pieces[piece.id] : undefined;
  const bottom = ice?.bottom ?? view?.runs[run.id]?.holeBottom;
  const thing: ThingView = piece ?? run;
  const others = toldOf(hole, piece ? [piece.id] : [run.id, ...run.pieces.map((one) => one.id)]);
  const parts = bottom ? depthParts(bottom) : null;
  const fact = (of: ThingView, field: string) => {
    const reading = of.readings[field];
    return reading ? (
      <Fact key={`${of.id} ${field}`} label={fieldName(of.kind, field)}>
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
              .filter(({ name }) => name !== 'run' || (piece.readings.run?.struck.length ?? 0) > 0)
              .map(({ name }) => fact(piece, name))
          : null}
        <Fact label={t('ice.run')}>
          <b className="num">{run.name}</b>
          <span className="quiet">
            {' '}
            {t('list.by', { by: initialsOf(campaign, run.by), at: moment(run.at) })}
          </span>
        </Fact>
        {fieldsOf('run').map(({ name }) => fact(run, name))}
      </dl>
      {children}
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
      {others.length > 0 ? (
        <>
          <h3>{t('ice.others')}</h3>
          <ThingList book={book} things={others} onCorrect={(one) => setCorrecting({ thing: one })} />
        </>
      ) : null}
      <h3 className="history-title">{t('ice.history')}</h3>
      <button type="button" className="link" aria-pressed={ids} onClick={() => setIds(!ids)}>
        {t('ice.history.ids')}
      </button>
      <ol className="list history">
        {(piece ? [...history(campaign, piece), ...history(campaign, run)] : history(campaign, run)).map(
          (line) => (
            <li key={`${line.entry} ${line.field}`}>
              <span className="small quiet">
                {t('list.by', { by: initialsOf(campaign, line.by), at: moment(line.at) })}
                <SignedMark book={book} entry={line.entry} />
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
                {line.against ? <span className="call"> {t('ice.history.against')}</span> : null}
                {ids ? <small className="num entry-id">{line.entry}</small> : null}
              </span>
            </li>
          ),
        )}
      </ol>
      {how && view ? (
        <Later
          part={howDialog}
          hole={hole}
          run={run}
          piece={piece}
          view={view}
          onClose={() => setHow(false)}
        />
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

function Fact({ label, children }: { readonly label: string; readonly children: ReactNode }) {
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
  /** It contradicts the one that counts, and a person has to settle it. */
  readonly against: boolean;
  readonly face: string;
}

/** Features, photographs, tapes, soundings, checks: everything of the hole that names one of these things. */
function toldOf(hole: HoleView, things: readonly string[]): readonly ThingView[] {
  const names = (one: ThingView, ids: readonly string[]) =>
    Object.values(one.readings).some((reading) => reading.value === null && ids.includes(reading.text));
  const all = [...hole.soundings, ...Object.values(hole.others).flat()];
  const first = all.filter((one) => names(one, things));
  const ids = first.map((one) => one.id);
  // A photograph of a feature belongs to the feature's piece.
  return [...first, ...all.filter((one) => !first.includes(one) && names(one, ids))];
}

/** Every claim on every reading of the thing, oldest first: nothing that was said is hidden. */
function history(campaign: CampaignView, thing: ThingView): readonly Line[] {
  const lines = fieldsOf(thing.kind).flatMap(({ name: field }) => {
    const reading = thing.readings[field];
    if (!reading) return [];
    const line = (
      one: Pick<ReadingView, 'entry' | 'text' | 'by' | 'at'> & { reason?: string },
      struck: boolean,
      against = false,
    ): Line => ({
      entry: one.entry,
      field,
      name: thing.name,
      label: fieldWords(thing.kind, field),
      text: readingWords(thing.kind, field, one.text, campaign),
      by: one.by,
      at: one.at,
      reason: one.reason,
      struck,
      against,
      face: readingFace(thing.kind, field),
    });
    return [
      ...reading.struck.map((one) => line(one, true)),
      ...reading.against.map((one) => line(one, false, true)),
      line(reading, false),
    ];
  });
  const { withdrawn } = thing;
  const gone: readonly Line[] =
    withdrawn === null
      ? []
      : withdrawn.entries.slice(-1).map((entry) => ({
          entry,
          field: 'withdrawn',
          name: thing.name,
          label: t('ice.history.withdrawn'),
          text: '',
          by: withdrawn.by,
          at: withdrawn.at,
          reason: withdrawn.reason,
          struck: false,
          against: false,
          face: '',
        }));
  return [...lines, ...gone].sort((a, b) => a.at.localeCompare(b.at));
}
