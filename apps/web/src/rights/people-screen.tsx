import '../texts/for-people.ts';
import {
  asksPin,
  type CampaignView,
  isCalled,
  type Right,
  rightsOf,
  saying,
  standing,
  type ThingView,
  whoMay,
} from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { Refusals } from '../forms/refusals.tsx';
import { PinLine, usePinsThere } from '../people/pin-line.tsx';
import { crewOf } from '../screens/people.ts';
import { refusalLines } from '../screens/refusal-lines.ts';
import { wordName } from '../texts/names.ts';
import { t } from '../texts/t.ts';
import './people.css';

const rights: readonly Right[] = ['log', 'plan', 'signOff'];

/** The people of a campaign and what each may do; whether that is a matter of names, and whether they have a PIN. */
export function PeopleScreen({ book }: { readonly book: BookHandle }) {
  const { campaign } = book;
  return campaign?.opened ? <People book={book} campaign={campaign} opened={campaign.opened} /> : null;
}

function People(props: {
  readonly book: BookHandle;
  readonly campaign: CampaignView;
  readonly opened: ThingView;
}) {
  const { book, campaign, opened } = props;
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const { me } = book;
  const pins = usePinsThere(campaign);
  const isByName = campaign.rights?.byName ?? false;
  const mayGive = me !== null && rightsOf(campaign, me).signOff;
  const say = async (thing: ThingView, field: string, word: string) => {
    const taken = await book.decide(saying(thing, field, word, t('people.reason')));
    setRefusals(taken.ok ? [] : refusalLines(taken.refusals));
  };
  const choice = (field: 'rights' | 'pin', word: string, isSo: boolean, label: string, hint: string) => (
    <li>
      <button
        type="button"
        aria-pressed={isSo}
        disabled={!mayGive && !isSo}
        onClick={() => {
          if (!isSo) void say(opened, field, word);
        }}
      >
        {label}
        <small>{hint}</small>
      </button>
    </li>
  );
  const isAsked = asksPin(campaign);
  return (
    <div className="work people">
      <section aria-labelledby="people">
        <h1 id="people">{t('people.title')}</h1>
        <p className="hint">{t('people.hint')}</p>
        {mayGive ? null : (
          <p className="hint" role="status">
            {t('people.ask.them', { people: whoMay(campaign, 'signOff').join(', ') })}
          </p>
        )}
        <Refusals says={refusals} />
        <h2 id="people-who">{t('people.who')}</h2>
        <ul className="choices" aria-labelledby="people-who">
          {choice('rights', 'everybody', !isByName, t('people.everybody'), t('people.everybody.hint'))}
          {choice('rights', 'by name', isByName, t('people.by.name'), t('people.by.name.hint'))}
        </ul>
        <h2 id="people-pin">{t('people.pin')}</h2>
        <ul className="choices" aria-labelledby="people-pin">
          {choice('pin', 'not asked', !isAsked, t('people.pin.not.asked'), t('people.pin.not.asked.hint'))}
          {choice('pin', 'asked', isAsked, t('people.pin.asked'), t('people.pin.asked.hint'))}
        </ul>
      </section>
      <section aria-labelledby="people-list">
        <h2 id="people-list">{t('people.list', { count: standing(campaign.people).length })}</h2>
        {isByName ? (
          <dl className="rights-mean">
            {rights.map((right) => (
              <div key={right}>
                <dt>{t(`people.${right}`)}</dt>
                <dd>{t(`people.${right}.hint`)}</dd>
              </div>
            ))}
          </dl>
        ) : (
          <p className="hint">{t('people.nothing.to.give')}</p>
        )}
        <ul className="list people-list">
          {crewOf(campaign).map(({ thing }) => (
            <Person
              key={thing.id}
              book={book}
              person={thing}
              pins={pins}
              isByName={isByName}
              mayGive={mayGive}
              onSay={(field, word) => void say(thing, field, word)}
            />
          ))}
        </ul>
        <p className="hint">{t('people.new')}</p>
      </section>
    </div>
  );
}

function Person(props: {
  readonly book: BookHandle;
  readonly person: ThingView;
  readonly pins: ReturnType<typeof usePinsThere>;
  readonly isByName: boolean;
  readonly mayGive: boolean;
  readonly onSay: (field: Right, word: 'yes' | 'no') => void;
}) {
  const { book, person, pins, isByName, mayGive, onSay } = props;
  const campaign = book.campaign!;
  const has = rightsOf(campaign, person.id);
  const initials = person.name;
  const duties = standing(campaign.others.duty)
    .filter(({ readings }) => readings.ended === undefined)
    .filter(({ readings }) => isCalled(person, readings.person?.text ?? ''))
    .map(({ readings }) => wordName('duty', 'as', readings.as?.text ?? '').toLowerCase());
  return (
    <li data-person={initials}>
      <p>
        <b>{initials}</b> {person.readings.name?.text ?? ''}{' '}
        <small>
          {[
            ...(book.me !== null && isCalled(person, book.me) ? [t('people.me')] : []),
            ...(duties.length > 0 ? [t('people.at.work', { as: duties.join(', ') })] : []),
          ].join(' · ')}
        </small>
      </p>
      {pins === null ? null : <PinLine campaign={campaign} person={person} pins={pins} />}
      {isByName ? (
        <div className="rights">
          {rights.map((right) => (
            <button
              key={right}
              type="button"
              role="switch"
              aria-checked={has[right]}
              aria-label={t('people.right.of', { initials, right: t(`people.${right}`) })}
              disabled={!mayGive}
              onClick={() => onSay(right, has[right] ? 'no' : 'yes')}
            >
              <b>{t(`people.${right}`)}</b>
              <span>{t(has[right] ? 'people.may' : 'people.may.not')}</span>
            </button>
          ))}
        </div>
      ) : null}
    </li>
  );
}
