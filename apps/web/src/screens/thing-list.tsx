import { kindOf, type ThingView } from '@firnbook/campaign';
import { Fragment } from 'react';
import type { BookHandle } from '../device/book.ts';
import { fieldWords } from '../texts/names.ts';
import { moment } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { thingName } from '../texts/thing-name.ts';
import { CorrectButton } from './correct-button.tsx';
import { fieldsOf } from './fields.ts';
import { initialsOf } from './people.ts';
import { Picture } from './picture.tsx';
import { ReadingText } from './reading-text.tsx';
import { restOf } from './saved.tsx';
import { RestTick } from './ticks.tsx';

/** Fields that say by themselves what they are. */
const bare = [
  'surface',
  'depth',
  'position',
  'says',
  'what',
  'note',
  'caption',
  'positions',
  'sky',
  'result',
  'as',
];
/** Fields that are for machines. */
const silent = ['lengthEntry', 'entry', 'picture'];

/**
 * Things of any kind, in the order handed in: every reading with its history, who said it when, and where it rests.
 * Struck readings and withdrawn things stay visible.
 */
export function ThingList(props: {
  readonly book: BookHandle;
  readonly things: readonly ThingView[];
  readonly onCorrect: (thing: ThingView) => void;
}) {
  const { book, things, onCorrect } = props;
  const campaign = book.campaign;
  if (!campaign) return null;
  return (
    <ol className="list runs">
      {things.map((thing) => (
        <li key={thing.id} className={thing.withdrawn ? 'run withdrawn' : 'run'}>
          <p className="line stacked">
            <b className="name">{thingName(thing)}</b>
            <span className="readings">
              <Readings book={book} thing={thing} />
            </span>
            {thing.withdrawn ? (
              <span className="quiet">
                {t('list.withdrawn', {
                  by: initialsOf(campaign, thing.withdrawn.by),
                  reason: thing.withdrawn.reason,
                })}
              </span>
            ) : null}
          </p>
          {thing.readings.picture ? (
            <Picture book={book} sha256={thing.readings.picture.text} name={thingName(thing)} />
          ) : null}
          <p className="by small quiet">
            {t('list.by', { by: initialsOf(campaign, thing.by), at: moment(thing.at) })}
            <RestTick rest={restOf(book, thing.entries)} />
          </p>
          <CorrectButton thing={thing} onCorrect={onCorrect} />
        </li>
      ))}
    </ol>
  );
}

/** What a thing says, one reading after the other; its name is not said twice unless it was changed. */
export function Readings(props: {
  readonly book: Pick<BookHandle, 'campaign'>;
  readonly thing: ThingView;
  /** These fields alone. */
  readonly only?: readonly string[];
}) {
  const { book, thing, only } = props;
  const campaign = book.campaign;
  if (!campaign) return null;
  const called = thing.kind === 'sounding' ? 'afterRun' : kindOf(thing.kind)?.calledBy;
  const shown = fieldsOf(thing.kind).filter(({ name }) => {
    const reading = thing.readings[name];
    if (!reading || silent.includes(name) || (only && !only.includes(name))) return false;
    return name !== called || reading.struck.length > 0 || reading.against.length > 0 || name === 'depth';
  });
  if (shown.length === 0) return only ? null : t('list.not.read');
  return shown.map(({ name }, place) => (
    <Fragment key={name}>
      {place === 0 ? '' : name === 'sd' ? ' ' : ' · '}
      {name === 'sd' ? '± ' : null}
      {name === 'sd' || bare.includes(name) ? null : (
        <span className="quiet">{fieldWords(thing.kind, name)} </span>
      )}
      <ReadingText campaign={campaign} thing={thing} reading={thing.readings[name]!} />
    </Fragment>
  ));
}
