import { type Doubt, findThing } from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { type Choice, ChoiceQuestion } from '../forms/choice-question.tsx';
import { planOf } from '../forms/plans.ts';
import { t } from '../texts/t.ts';
import { thingName } from '../texts/thing-name.ts';
import { ChangeForm } from './change-form.tsx';
import { Doubts } from './doubts.tsx';
import { Findings } from './findings.tsx';
import { Picture } from './picture.tsx';
import { Saved } from './saved.tsx';
import { Readings } from './thing-list.tsx';

/** What was just logged, as it reads now, what else can be said about it, and the way on. */
export function ThingAnswer(props: {
  readonly book: BookHandle;
  readonly thing: string;
  readonly doubts: readonly Doubt[];
  /** The way on, the usual one first. */
  readonly ways: readonly Choice[];
}) {
  const { book, doubts, ways } = props;
  const [doing, setDoing] = useState<'answer' | 'more' | 'correct'>('answer');
  const found = book.campaign ? findThing(book.campaign, props.thing) : undefined;
  if (!found) return null;
  const { thing, hole } = found;
  if (doing !== 'answer' && thing.withdrawn === null)
    return (
      <ChangeForm
        key={doing}
        book={book}
        thing={thing}
        adding={doing === 'more'}
        onDone={() => setDoing('answer')}
      />
    );
  const name = thingName(thing);
  return (
    <div className="answer">
      <ChoiceQuestion
        title={thing.withdrawn ? t('correct.withdraw.says', { name }) : name}
        hint={
          <span className="say" role="status">
            {thing.readings.picture ? (
              <Picture book={book} sha256={thing.readings.picture.text} name={name} />
            ) : (
              <Readings book={book} thing={thing} />
            )}
          </span>
        }
        choices={[
          ...ways,
          ...(thing.withdrawn === null
            ? [
                ...(planOf(thing.kind).more.length > 0
                  ? [{ key: 'more', label: t('more.open'), onTake: () => setDoing('more') }]
                  : []),
                { key: 'correct', label: t('answer.correct', { name }), onTake: () => setDoing('correct') },
              ]
            : []),
        ]}
      >
        <Saved book={book} entries={thing.entries} />
        <Doubts book={book} thing={thing.id} doubts={doubts} />
        {hole ? (
          <Findings
            book={book}
            hole={hole}
            depths={book.depths[hole.id]}
            things={[thing.id]}
            except={{ thing: thing.id, fields: doubts.map((doubt) => doubt.field) }}
          />
        ) : null}
      </ChoiceQuestion>
    </div>
  );
}
