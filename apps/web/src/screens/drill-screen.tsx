import type { Doubt, ThingView } from '@firnbook/campaign';
import { useState } from 'react';
import { useDraft } from '../device/draft.ts';
import { ChoiceQuestion } from '../forms/choice-question.tsx';
import { emptyRunDraft, isBegun, type RunDraft, RunForm } from '../forms/run-form.tsx';
import { SoundingForm } from '../forms/sounding-form.tsx';
import { typedOf } from '../forms/typed.ts';
import { ZeroForm } from '../forms/zero-form.tsx';
import { t } from '../texts/t.ts';
import { AxisPlace } from './axis-place.tsx';
import { Beside } from './beside.tsx';
import { Cautions, cautionsSeen, keepCautionsSeen } from './cautions.tsx';
import { CorrectDialog } from './correct-dialog.tsx';
import { Doubts } from './doubts.tsx';
import { DrillLists } from './drill-lists.tsx';
import { Findings } from './findings.tsx';
import { lastRun, nextRunNumber, reading } from './hole.ts';
import type { PlaceProps } from './place.ts';
import { readingWords } from './reading-text.tsx';
import { refusalLines } from './refusal-lines.ts';
import { RunAnswer } from './run-answer.tsx';
import { Saved } from './saved.tsx';

type Doing =
  | { readonly is: 'run' }
  | { readonly is: 'answer'; readonly run: string; readonly doubts: readonly Doubt[] }
  | { readonly is: 'sounding' }
  | { readonly is: 'zero' }
  | {
      readonly is: 'said';
      readonly kind: 'soundings' | 'zeros';
      readonly thing: string;
      readonly doubts: readonly Doubt[];
    };

/** At the drill: the next run's form stands open, the runs so far beside it. */
export function DrillScreen({ book, hole }: PlaceProps) {
  const draft = useDraft<RunDraft>(`run:${hole.id}`, emptyRunDraft);
  const [doing, setDoing] = useState<Doing>({ is: 'run' });
  const [correcting, setCorrecting] = useState<ThingView | null>(null);
  const campaign = book.campaign?.id ?? '';
  const [touched, setTouched] = useState<string | null>(null);
  const open = isBegun(draft.value) || doing.is !== 'run';
  const [seen, setSeen] = useState(() => cautionsSeen(campaign, book.me, Date.now()));

  const before = lastRun(hole);
  const bottom = before ? reading(before, 'to') : undefined;
  const log = async (kind: string, readings: Readonly<Record<string, string>>) =>
    book.decide({ do: 'log', kind, hole: hole.id, readings });

  const form = () => {
    if (!seen && !open)
      return (
        <Cautions
          onSeen={() => {
            keepCautionsSeen(campaign, book.me, Date.now());
            setSeen(true);
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
                const taken = await log('run', readings);
                if (!taken.ok) return refusalLines(taken.refusals);
                draft.clear();
                setDoing({ is: 'answer', run: taken.entries[0] ?? '', doubts: taken.doubts });
                return [];
              }}
            />
            {draft.value.step === 'from' ? (
              <div className="answers others">
                {before ? (
                  <button type="button" onClick={() => setDoing({ is: 'sounding' })}>
                    {t('sounding.open')}
                  </button>
                ) : null}
                <button type="button" onClick={() => setDoing({ is: 'zero' })}>
                  {t('zero.open')}
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
            onNext={() => setDoing({ is: 'run' })}
            onCorrect={setCorrecting}
          />
        );
      case 'sounding':
        return before ? (
          <SoundingForm
            afterRun={{ id: before.id, name: before.name }}
            onBack={() => setDoing({ is: 'run' })}
            onSave={async (readings) => {
              const taken = await log('sounding', readings);
              if (!taken.ok) return refusalLines(taken.refusals);
              setDoing({
                is: 'said',
                kind: 'soundings',
                thing: taken.entries[0] ?? '',
                doubts: taken.doubts,
              });
              return [];
            }}
          />
        ) : null;
      case 'zero':
        return (
          <ZeroForm
            another={hole.zeros.length > 0}
            onBack={() => setDoing({ is: 'run' })}
            onSave={async (readings) => {
              const taken = await log('zero', readings);
              if (!taken.ok) return refusalLines(taken.refusals);
              setDoing({
                is: 'said',
                kind: 'zeros',
                thing: taken.entries[0] ?? '',
                doubts: taken.doubts,
              });
              return [];
            }}
          />
        );
      case 'said': {
        const thing = hole[doing.kind].find((one) => one.id === doing.thing);
        if (!thing) return null;
        return (
          <div className="answer">
            <ChoiceQuestion
              title={measuredWords(thing)}
              choices={[
                { key: 'next', usual: true, label: t('run.next'), onTake: () => setDoing({ is: 'run' }) },
                ...(thing.withdrawn === null
                  ? [
                      {
                        key: 'correct',
                        label: t('answer.correct', { name: thing.name }),
                        onTake: () => setCorrecting(thing),
                      },
                    ]
                  : []),
              ]}
            >
              <Saved book={book} entries={[doing.thing]} />
              <Doubts book={book} thing={doing.thing} doubts={doing.doubts} />
              <Findings
                book={book}
                hole={hole}
                depths={book.depths[hole.id]}
                things={[doing.thing]}
                except={{ thing: doing.thing, fields: doing.doubts.map((doubt) => doubt.field) }}
              />
            </ChoiceQuestion>
          </div>
        );
      }
    }
  };

  return (
    <div className="work drill">
      <AxisPlace book={book} hole={hole} thing={touched ?? undefined} onTouch={setTouched} />
      <section aria-label={t('place.drill')}>{form()}</section>
      <Beside
        book={book}
        hole={hole}
        touched={touched}
        answered={doing.is === 'answer' ? [doing.run] : doing.is === 'said' ? [doing.thing] : []}
        onBack={() => setTouched(null)}
      >
        <DrillLists
          book={book}
          hole={hole}
          first={doing.is === 'said' ? doing.kind : 'runs'}
          onCorrect={setCorrecting}
        />
      </Beside>
      {correcting ? (
        <CorrectDialog book={book} thing={correcting} onClose={() => setCorrecting(null)} />
      ) : null}
    </div>
  );
}

/** The sounding or zero as it reads now, a correction included. */
function measuredWords(thing: ThingView): string {
  if (thing.withdrawn) return t('correct.withdraw.says', { name: thing.name });
  const text = (field: string) => readingWords(thing.kind, field, reading(thing, field)?.text ?? '');
  return thing.kind.startsWith('zero')
    ? t('zero.said', { surface: text('surface') })
    : t('sounding.said', { name: thing.name, depth: text('depth') });
}
