import { type Doubt, type HoleView, isCalled, type RunView, type ThingView } from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { ChoiceQuestion } from '../forms/choice-question.tsx';
import { ThingQuestion } from '../forms/thing-question.tsx';
import { kindName } from '../texts/names.ts';
import { t } from '../texts/t.ts';
import { thingName } from '../texts/thing-name.ts';
import { ChangeForm } from './change-form.tsx';
import { standing } from './hole.ts';
import { MakeThing } from './make.tsx';
import { ThingAnswer } from './thing-answer.tsx';
import { unweighed, WeighForm } from './weigh-form.tsx';

type Work = 'weigh' | 'tray' | 'feature' | 'photograph' | 'temperature' | 'late';

type Doing =
  | { readonly is: 'list' }
  | { readonly is: Work }
  | { readonly is: 'on'; readonly work: 'feature' | 'photograph' | 'temperature'; readonly thing: ThingView }
  | { readonly is: 'made'; readonly thing: string; readonly doubts: readonly Doubt[] };

/** Everything at the bench beside a run's pieces: masses, tape, features, photographs, ice that turns up late. */
export function BenchWork(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly run: RunView;
  /** Begins with the masses, or with the list. */
  readonly first: 'list' | 'weigh';
  /** A piece turned up that belongs to another run. */
  readonly onLate: (run: string) => void;
  readonly onBack: () => void;
}) {
  const { book, hole, run, first, onLate, onBack } = props;
  const [doing, setDoing] = useState<Doing>({ is: first });
  const pieces = standing(run.pieces);
  const toList = () => setDoing({ is: 'list' });
  const made = (thing: string, doubts: readonly Doubt[]) => setDoing({ is: 'made', thing, doubts });
  const choice = (work: Work, hint?: string) => ({
    key: work,
    label: t(`log.${work}`),
    hint,
    onTake: () => setDoing({ is: work }),
  });
  /** A piece is picked for, where there is more than one. */
  const pick = (work: 'feature' | 'temperature') => (
    <ThingQuestion
      title={t('log.which.piece')}
      things={[...pieces].reverse()}
      nameOf={(piece) => piece.name}
      onTake={(id) => {
        const thing = pieces.find((one) => one.id === id);
        if (thing) setDoing({ is: 'on', work, thing });
      }}
      onBack={toList}
    />
  );
  switch (doing.is) {
    case 'list':
      return (
        <ChoiceQuestion
          title={t('log.work.title', { name: run.name })}
          choices={[
            ...(pieces.length > 0
              ? [choice('weigh', t('log.weigh.hint', { count: unweighed(run).length }))]
              : []),
            choice('tray', t('log.tray.hint')),
            ...(pieces.length > 0 ? [choice('feature', t('log.feature.hint')), choice('temperature')] : []),
            choice('photograph'),
            choice('late', t('log.late.hint')),
          ]}
          onBack={onBack}
        />
      );
    case 'weigh':
      return <WeighForm book={book} hole={hole} run={run} onBack={first === 'weigh' ? onBack : toList} />;
    case 'tray':
      return (
        <MakeThing
          book={book}
          hole={hole}
          kind="tray"
          given={{ run: run.id }}
          title={run.name}
          scope={run.id}
          onMade={made}
          onBack={toList}
        />
      );
    case 'feature':
    case 'temperature':
      return pick(doing.is);
    case 'photograph': {
      const features = (hole.others.feature ?? []).filter((one) =>
        pieces.some((piece) => isCalled(piece, one.readings.piece?.text ?? '')),
      );
      const things: readonly ThingView[] = [...standing(features), ...[...pieces].reverse(), run];
      return (
        <ThingQuestion
          title={t('log.which.of')}
          things={things}
          nameOf={(thing) => (thing.id === run.id ? t('log.of.run', { name: run.name }) : thingName(thing))}
          onTake={(id) => {
            const thing = things.find((one) => one.id === id);
            if (thing) setDoing({ is: 'on', work: 'photograph', thing });
          }}
          onBack={toList}
        />
      );
    }
    case 'late':
      return (
        <ThingQuestion
          title={t('log.late.which')}
          things={standing(hole.runs)}
          nameOf={(one) => one.name}
          onTake={onLate}
          onBack={toList}
        />
      );
    case 'on': {
      const { work, thing } = doing;
      if (work === 'temperature')
        return <ChangeForm book={book} thing={thing} field="temperature" onDone={toList} />;
      const isFeature = work === 'feature';
      const length = thing.readings.length?.entry;
      return (
        <MakeThing
          book={book}
          hole={hole}
          kind={work}
          given={
            isFeature ? { piece: thing.id, ...(length ? { lengthEntry: length } : {}) } : { of: thing.id }
          }
          title={isFeature ? thing.name : t('thing.named', { kind: kindName(work), name: thingName(thing) })}
          scope={thing.id}
          onMade={made}
          onBack={toList}
        />
      );
    }
    case 'made':
      return (
        <ThingAnswer
          book={book}
          thing={doing.thing}
          doubts={doing.doubts}
          ways={[
            { key: 'next', usual: true, label: t('weigh.back', { name: run.name }), onTake: onBack },
            { key: 'list', label: t('log.other.work'), onTake: toList },
          ]}
        />
      );
  }
}
