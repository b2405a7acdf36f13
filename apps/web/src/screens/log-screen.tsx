import {
  type Doubt,
  fieldOf,
  type HoleView,
  isCalled,
  kindOf,
  lengthsIn,
  type RunView,
  type ThingView,
} from '@firnbook/campaign';
import { memo, useState } from 'react';
import { Link } from 'wouter';
import type { BookHandle } from '../device/book.ts';
import { useDraft, writeDraft } from '../device/draft.ts';
import { ChoiceQuestion } from '../forms/choice-question.tsx';
import { Icon } from '../forms/icons.tsx';
import { Later } from '../forms/later.tsx';
import { emptyPieceDraft, lateDraft, type PieceDraft, PieceForm } from '../forms/piece-form.tsx';
import { t } from '../texts/t.ts';
import { AxisPlace } from './axis-place.tsx';
import { BenchVerdict } from './bench-verdict.tsx';
import { Beside } from './beside.tsx';
import { CorrectDialog } from './correct-dialog.tsx';
import { Findings } from './findings.tsx';
import { useFollowing } from './follow-form.ts';
import { benched, drilled, metresOf, nextPieceNumber, runOnBench, standing } from './hole.ts';
import { PieceAnswer } from './piece-answer.tsx';
import { PieceList } from './piece-list.tsx';
import type { PlaceProps } from './place.ts';
import { refusalLines } from './refusal-lines.ts';
import { runWords } from './sentences.ts';

const benchWork = () => import('./bench-work.tsx').then(({ BenchWork }) => BenchWork);

/** Runs whose catcher may have scratched a piece: those just before its own. */
const catchersShown = 3;

type Doing =
  | { readonly is: 'piece' }
  | { readonly is: 'answer'; readonly piece: string; readonly doubts: readonly Doubt[] }
  | { readonly is: 'done' }
  | { readonly is: 'work'; readonly first: 'list' | 'weigh' };

/** At the bench: the pieces of one run, top first. */
export function LogScreen({ book, hole }: PlaceProps) {
  const [picked, setPicked] = useState<string | null>(null);
  const [withIce, setWithIce] = useState(false);
  const [touched, setTouched] = useState<string | null>(null);
  const [doing, setDoing] = useState<Doing>({ is: 'piece' });
  const [correcting, setCorrecting] = useState<ThingView | null>(null);
  const after = useFollowing({ book, hole });
  const runs = standing(hole.runs);
  const run = runs.find((one) => one.id === picked) ?? runOnBench(hole);
  const draft = useDraft<PieceDraft>(`piece:${run?.id ?? ''}`, emptyPieceDraft);
  if (!run)
    return (
      <div className="work drill log">
        <AxisPlace book={after.book} hole={after.hole} steps={false} onTouch={setTouched} />
        <section>
          <h1>{t('log.no.run')}</h1>
          <p className="hint">{t('log.no.run.hint')}</p>
          <Link href={`/c/${book.campaign?.id}/${hole.letter}/drill`} className="button act to-drill">
            {t('log.to.drill')}
          </Link>
        </section>
      </div>
    );

  const at = runs.indexOf(run);
  const step = (to: RunView | undefined) => {
    if (!to) return;
    setPicked(to.id);
    setTouched(null);
    setWithIce(false);
    setDoing(standing(to.pieces).length > 0 ? { is: 'done' } : { is: 'piece' });
  };
  const pieces = standing(run.pieces);
  const unweighed = pieces.filter((piece) => piece.readings.mass === undefined).length;
  const others = runs.filter((one) => one.id !== run.id && !one.nothingRecovered && one.pieces.length === 0);

  const form = () => {
    if (run.nothingRecovered && doing.is === 'piece' && !withIce)
      return <Nothing run={run} onWith={() => setWithIce(true)} />;
    switch (doing.is) {
      case 'piece':
        return (
          <PieceForm
            key={`${run.id} ${nextPieceNumber(run)}`}
            draft={draft.value}
            onDraft={draft.set}
            run={run.name}
            number={nextPieceNumber(run)}
            above={aboveOf(runs, run)}
            before={beforeOf(run)}
            drilled={drilled(run)}
            left={leftOf(run)}
            tape={tapeOf(hole, run)}
            catchers={runs
              .slice(Math.max(0, at - catchersShown), at)
              .reverse()
              .map(({ id, name }) => ({ id, name }))}
            onSave={async (readings) => {
              const taken = await book.decide({
                do: 'log',
                kind: 'piece',
                hole: hole.id,
                run: run.id,
                readings,
              });
              if (!taken.ok) return refusalLines(taken.refusals);
              setPicked(run.id);
              draft.clear();
              setDoing({ is: 'answer', piece: taken.entries[0] ?? '', doubts: taken.doubts });
              return [];
            }}
          />
        );
      case 'answer':
        return (
          <PieceAnswer
            book={book}
            hole={hole}
            run={run}
            piece={run.pieces.find((one) => one.id === doing.piece)}
            doubts={doing.doubts}
            onNext={() => setDoing({ is: 'piece' })}
            onDone={() => setDoing({ is: 'done' })}
            onCorrect={setCorrecting}
          />
        );
      case 'done':
        return (
          <div className="answer">
            <ChoiceQuestion
              title={t('log.run.title', { name: run.name })}
              hint={
                <>
                  <span className="say" role="status">
                    {runWords(hole, book.depths[hole.id], run)}
                  </span>
                  <BenchVerdict book={book} hole={hole} run={run} />
                </>
              }
              choices={[
                ...(unweighed > 0
                  ? [
                      {
                        key: 'weigh',
                        label: t('log.weigh'),
                        hint: t('log.weigh.hint', { count: unweighed }),
                        onTake: () => setDoing({ is: 'work', first: 'weigh' }),
                      },
                    ]
                  : []),
                ...others.slice(-2).map((one) => ({
                  key: one.id,
                  usual: true,
                  label: t('log.to.run', { name: one.name }),
                  hint: t('log.to.run.hint'),
                  onTake: () => step(one),
                })),
                {
                  key: 'more',
                  label: t('log.more', { name: run.name }),
                  hint: t('log.more.hint'),
                  onTake: () => setDoing({ is: 'piece' }),
                },
                {
                  key: 'work',
                  label: t('log.other.work'),
                  onTake: () => setDoing({ is: 'work', first: 'list' }),
                },
              ]}
            >
              <Findings
                book={book}
                hole={hole}
                depths={book.depths[hole.id]}
                things={[run.id, ...run.pieces.map((piece) => piece.id)]}
              />
            </ChoiceQuestion>
          </div>
        );
      case 'work':
        return (
          <Later
            part={benchWork}
            key={run.id}
            book={book}
            hole={hole}
            run={run}
            first={doing.first}
            onLate={(id: string) => {
              if (id === run.id) draft.set(lateDraft);
              else writeDraft(`piece:${id}`, lateDraft);
              setPicked(id);
              setWithIce(true);
              setDoing({ is: 'piece' });
            }}
            onBack={() => setDoing(pieces.length > 0 ? { is: 'done' } : { is: 'piece' })}
          />
        );
    }
  };

  return (
    <div className="work drill log">
      <AxisPlace
        book={after.book}
        hole={after.hole}
        thing={touched ?? run.id}
        steps={false}
        onTouch={setTouched}
      />
      <section aria-label={t('place.log')}>
        {doing.is === 'work' || (doing.is === 'piece' && draft.value.step !== 'break') ? null : (
          <div className="stepper">
            <button
              type="button"
              disabled={at <= 0}
              onClick={() => step(runs[at - 1])}
              aria-label={t('log.run.before')}
            >
              <Icon name="left" />
            </button>
            <button
              type="button"
              className="run-name"
              onClick={() => setDoing({ is: 'work', first: 'list' })}
            >
              <b className="num">{run.name}</b>
              <small>{t('log.other.work')}</small>
            </button>
            <button
              type="button"
              disabled={at >= runs.length - 1}
              onClick={() => step(runs[at + 1])}
              aria-label={t('log.run.after')}
            >
              <Icon name="right" />
            </button>
          </div>
        )}
        {form()}
      </section>
      <LogBeside
        book={after.book}
        hole={after.hole}
        run={run.id}
        touched={touched}
        isAnswered={doing.is !== 'piece'}
        onTouch={setTouched}
        onCorrect={setCorrecting}
      />
      {correcting ? (
        <CorrectDialog book={book} thing={correcting} onClose={() => setCorrecting(null)} />
      ) : null}
    </div>
  );
}

/** Drawn anew when something that it shows has changed, and not with every key of the form. */
const LogBeside = memo(function LogBeside(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  /** Id of the run on the bench. */
  readonly run: string;
  readonly touched: string | null;
  /** The findings of the run and its pieces stand in the form's place. */
  readonly isAnswered: boolean;
  readonly onTouch: (thing: string | null) => void;
  readonly onCorrect: (thing: ThingView) => void;
}) {
  const { book, hole, touched, isAnswered, onTouch, onCorrect } = props;
  const run = hole.runs.find((one) => one.id === props.run);
  if (!run) return null;
  return (
    <Beside
      book={book}
      hole={hole}
      touched={touched}
      answered={isAnswered ? [run.id, ...run.pieces.map((piece) => piece.id)] : []}
      onBack={() => onTouch(null)}
    >
      <h2>{t('piece.list.title', { name: run.name })}</h2>
      <PieceList book={book} hole={hole} run={run} onCorrect={onCorrect} />
    </Beside>
  );
});

/** What the next piece's top is held against. */
function aboveOf(runs: readonly RunView[], run: RunView): string {
  const last = standing(run.pieces).at(-1);
  if (last) return t('piece.above.piece', { number: last.number });
  const earlier = runs.slice(0, runs.indexOf(run)).findLast((one) => standing(one.pieces).length > 0);
  return earlier ? t('piece.above.run', { name: earlier.name }) : t('piece.above.surface');
}

function beforeOf(run: RunView): { readonly number: number; readonly length: number } | null {
  const last = standing(run.pieces).at(-1);
  const length = last ? metresOf(last, 'length') : null;
  return last && length !== null ? { number: last.number, length } : null;
}

function leftOf(run: RunView): number | null {
  const advance = drilled(run);
  return advance === null ? null : advance - benched(run);
}

/** A run without core has no form to fill; ice that turns up after all is still taken. */
function Nothing({ run, onWith }: { readonly run: RunView; readonly onWith: () => void }) {
  return (
    <ChoiceQuestion
      title={t('log.nothing', { name: run.name })}
      hint={t('log.nothing.hint')}
      choices={[{ key: 'with', label: t('log.nothing.with'), onTake: onWith }]}
    />
  );
}

/** Where the next piece lies on the run's tray tape; null where there is no tape or it ends above. */
function tapeOf(hole: HoleView, run: RunView): { readonly from: number; readonly to: number } | null {
  const tray = standing(hole.others.tray ?? []).findLast((one) =>
    isCalled(run, one.readings.run?.text ?? ''),
  );
  const field = fieldOf(kindOf('tray')!, 'positions');
  if (tray?.readings.positions === undefined || field?.quantity !== 'lengths') return null;
  const places = lengthsIn(tray.readings.positions.text, field);
  const from = places[nextPieceNumber(run) - 1];
  const to = places[nextPieceNumber(run)];
  return from === undefined || to === undefined ? null : { from, to };
}
