import { type Doubt, findThing, type HoleView, type ThingView } from '@firnbook/campaign';
import { memo, useMemo, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { useDraft } from '../device/draft.ts';
import { Later } from '../forms/later.tsx';
import { emptyRunDraft, isBegun, type RunDraft, RunForm } from '../forms/run-form.tsx';
import { typedOf } from '../forms/typed.ts';
import { t } from '../texts/t.ts';
import { AxisPlace } from './axis-place.tsx';
import { Beside } from './beside.tsx';
import { Cautions, cautionsSeen, keepCautionsSeen } from './cautions.tsx';
import { CorrectDialog } from './correct-dialog.tsx';
import { DrillLists, listOf } from './drill-lists.tsx';
import { useFollowing } from './follow-form.ts';
import { lastRun, namedByRun, nextRunNumber, reading } from './hole.ts';
import type { PlaceProps } from './place.ts';
import { refusalLines } from './refusal-lines.ts';
import { RunAnswer } from './run-answer.tsx';

const measure = () => import('./measure.tsx').then(({ Measure }) => Measure);

type Doing =
  | { readonly is: 'run' }
  | { readonly is: 'answer'; readonly run: string; readonly doubts: readonly Doubt[] }
  | { readonly is: 'measure'; readonly made: string | null };

/** At the drill: the next run's form stands open, the runs so far beside it. */
export function DrillScreen({ book, hole }: PlaceProps) {
  const draft = useDraft<RunDraft>(`run:${hole.id}`, emptyRunDraft);
  const [doing, setDoing] = useState<Doing>({ is: 'run' });
  const [correcting, setCorrecting] = useState<ThingView | null>(null);
  const { campaign } = book;
  const [touched, setTouched] = useState<string | null>(null);
  const after = useFollowing({ book, hole });
  const open = isBegun(draft.value) || doing.is !== 'run';
  const id = campaign?.id ?? '';
  /** Who read the cautions on this screen; the next to take the tablet reads them too. */
  const [readBy, setReadBy] = useState<string | null>(null);
  const seen = useMemo(
    () => (readBy !== null && readBy === book.me) || cautionsSeen(id, book.me, Date.now()),
    [id, book.me, readBy],
  );
  if (!campaign) return null;

  const before = lastRun(hole);
  const bottom = before ? reading(before, 'to') : undefined;
  const toRun = () => setDoing({ is: 'run' });

  const form = () => {
    if (!seen && !open)
      return (
        <Cautions
          onSeen={() => {
            keepCautionsSeen(id, book.me, Date.now());
            setReadBy(book.me);
          }}
        />
      );
    switch (doing.is) {
      case 'run':
        return (
          <>
            <RunForm
              draft={draft.value}
              onDraft={draft.set}
              nextNumber={nextRunNumber(hole)}
              proposedFrom={before && bottom ? { typed: typedOf(bottom.text, 'm'), run: before.name } : null}
              onSave={async (readings) => {
                const named = { ...namedByRun(campaign, hole), ...readings };
                const taken = await book.decide({ do: 'log', kind: 'run', hole: hole.id, readings: named });
                if (!taken.ok) return refusalLines(taken.refusals);
                draft.clear();
                setDoing({ is: 'answer', run: taken.entries[0] ?? '', doubts: taken.doubts });
                return [];
              }}
            />
            {draft.value.step === 'from' ? (
              <div className="answers others">
                <button type="button" onClick={() => setDoing({ is: 'measure', made: null })}>
                  {t('measure.open')}
                </button>
              </div>
            ) : null}
          </>
        );
      case 'answer':
        return (
          <RunAnswer
            book={book}
            hole={hole}
            run={doing.run}
            doubts={doing.doubts}
            onNext={toRun}
            onCorrect={setCorrecting}
          />
        );
      case 'measure':
        return (
          <Later
            part={measure}
            book={book}
            hole={hole}
            onMade={(made: string) => setDoing({ is: 'measure', made })}
            onBack={toRun}
          />
        );
    }
  };
  const made =
    doing.is === 'answer' ? doing.run : doing.is === 'measure' && doing.made !== null ? doing.made : null;
  const kind = made === null ? 'run' : (findThing(campaign, made)?.thing.kind ?? 'run');

  return (
    <div className="work drill">
      <AxisPlace book={after.book} hole={after.hole} thing={touched ?? undefined} onTouch={setTouched} />
      <section aria-label={t('place.drill')}>{form()}</section>
      <DrillBeside
        book={after.book}
        hole={after.hole}
        touched={touched}
        made={made}
        first={listOf(kind)}
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
const DrillBeside = memo(function DrillBeside(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly touched: string | null;
  /** What was logged last and is told in the form's place. */
  readonly made: string | null;
  readonly first: ReturnType<typeof listOf>;
  readonly onTouch: (thing: string | null) => void;
  readonly onCorrect: (thing: ThingView) => void;
}) {
  const { book, hole, touched, made, first, onTouch, onCorrect } = props;
  return (
    <Beside
      book={book}
      hole={hole}
      touched={touched}
      answered={made === null ? [] : [made]}
      onBack={() => onTouch(null)}
    >
      <DrillLists book={book} hole={hole} first={first} onCorrect={onCorrect} />
    </Beside>
  );
});
