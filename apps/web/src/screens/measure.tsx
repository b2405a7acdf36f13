import type { Doubt, HoleView, ThingView } from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { ChoiceQuestion } from '../forms/choice-question.tsx';
import { ThingQuestion } from '../forms/thing-question.tsx';
import { kindName } from '../texts/names.ts';
import { t } from '../texts/t.ts';
import { thingName } from '../texts/thing-name.ts';
import { lastRun, standing } from './hole.ts';
import { MakeThing } from './make.tsx';
import { ThingAnswer } from './thing-answer.tsx';

const kinds = [
  { kind: 'sounding', label: 'measure.sounding', hint: 'measure.sounding.hint', afterRun: true },
  { kind: 'cable check', label: 'measure.cable', hint: 'measure.cable.hint', afterRun: true },
  { kind: 'inclination', label: 'measure.inclination', hint: 'measure.inclination.hint' },
  { kind: 'zero check', label: 'measure.zero.again', hint: 'measure.zero.again.hint' },
  { kind: 'zero', label: 'measure.zero', hint: 'measure.zero.hint' },
  { kind: 'set-up', label: 'measure.setup', hint: 'measure.setup.hint' },
  { kind: 'photograph', label: 'log.photograph', hint: 'measure.photograph.hint' },
] as const;

type Doing =
  | { readonly is: 'list' }
  | { readonly is: 'make'; readonly kind: string; readonly of?: ThingView }
  | { readonly is: 'of' }
  | { readonly is: 'made'; readonly thing: string; readonly doubts: readonly Doubt[] };

/** What a driller measures or sets up between two runs, each behind its own button. */
export function Measure(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly onMade: (thing: string) => void;
  readonly onBack: () => void;
}) {
  const { book, hole, onMade, onBack } = props;
  const [doing, setDoing] = useState<Doing>({ is: 'list' });
  const run = lastRun(hole);
  const zeros = standing(hole.zeros);
  /** What a driller photographs, the newest last: the zeros, the run that has just come up. */
  const shown: readonly ThingView[] = [...zeros, ...(run ? [run] : [])];
  const given = (kind: string): Readonly<Record<string, string>> => {
    if (kinds.some((one) => one.kind === kind && 'afterRun' in one)) return run ? { afterRun: run.id } : {};
    const [zero] = zeros;
    return kind === 'zero check' && zeros.length === 1 && zero ? { zero: zero.id } : {};
  };
  switch (doing.is) {
    case 'list':
      return (
        <ChoiceQuestion
          title={t('measure.title')}
          choices={kinds
            .filter((one) => run || !('afterRun' in one))
            .filter(({ kind }) => kind !== 'zero check' || zeros.length > 0)
            .map(({ kind, label, hint }) => ({
              key: kind,
              label: t(label),
              hint: t(hint),
              onTake: () => setDoing(kind === 'photograph' ? { is: 'of' } : { is: 'make', kind }),
            }))}
          onBack={onBack}
        />
      );
    case 'of':
      return (
        <ThingQuestion
          title={t('log.which.of')}
          things={shown}
          nameOf={(one) => (one.kind === 'run' ? t('log.of.run', { name: one.name }) : thingName(one))}
          onTake={(id) => {
            const of = shown.find((one) => one.id === id);
            if (of) setDoing({ is: 'make', kind: 'photograph', of });
          }}
          onBack={() => setDoing({ is: 'list' })}
        />
      );
    case 'make':
      return (
        <MakeThing
          key={doing.kind}
          book={book}
          hole={hole}
          kind={doing.kind}
          given={doing.of ? { of: doing.of.id } : given(doing.kind)}
          without={doing.kind === 'zero' && zeros.length === 0 ? ['height'] : []}
          {...(run && 'afterRun' in given(doing.kind) ? { title: t('thing.after', { name: run.name }) } : {})}
          {...(doing.of
            ? {
                title: t('thing.named', { kind: kindName('photograph'), name: thingName(doing.of) }),
                scope: doing.of.id,
              }
            : {})}
          onMade={(thing, doubts) => {
            setDoing({ is: 'made', thing, doubts });
            onMade(thing);
          }}
          onBack={() => setDoing({ is: 'list' })}
        />
      );
    case 'made':
      return (
        <ThingAnswer
          book={book}
          thing={doing.thing}
          doubts={doing.doubts}
          ways={[{ key: 'next', usual: true, label: t('measure.back'), onTake: onBack }]}
        />
      );
  }
}
