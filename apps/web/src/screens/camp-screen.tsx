import type { Doubt, ThingView } from '@firnbook/campaign';
import { useRef, useState } from 'react';
import { Link } from 'wouter';
import type { BookHandle } from '../device/book.ts';
import { newestOf, thingsOfKind } from '../forms/at-hand.ts';
import { kindName } from '../texts/names.ts';
import { moment } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { ownName } from '../texts/thing-name.ts';
import { CorrectDialog } from './correct-dialog.tsx';
import { MakeThing } from './make.tsx';
import { initialsOf } from './people.ts';
import { type PlaceProps, placeAddress } from './place.ts';
import { Shift } from './shift.tsx';
import { ThingAnswer } from './thing-answer.tsx';
import { Readings, ThingList } from './thing-list.tsx';

/** What a camp writes down around its holes, in the order of a day. */
const kinds = [
  'weather',
  'instrument check',
  'contamination',
  'blank',
  'stake',
  'position',
  'pit',
  'hand-augered top',
  'site',
] as const;

type Doing =
  | { readonly is: 'list' }
  | { readonly is: 'make'; readonly kind: string }
  | { readonly is: 'made'; readonly thing: string; readonly doubts: readonly Doubt[] };

/** The camp: weather, people on shift, instruments, what may soil the ice, and what stands around the holes. */
export function CampScreen({ book, hole }: PlaceProps) {
  const [doing, setDoing] = useState<Doing>({ is: 'list' });
  const [kind, setKind] = useState<string>('weather');
  const list = useRef<HTMLElement>(null);
  const [correcting, setCorrecting] = useState<ThingView | null>(null);
  const { campaign } = book;
  if (campaign === null) return null;
  const write = (next: string) => {
    setKind(next);
    setDoing({ is: 'make', kind: next });
  };
  const show = (next: string) => {
    setKind(next);
    // On a phone the list lies below the buttons.
    if (window.matchMedia('(max-width: 860px)').matches) list.current?.scrollIntoView({ block: 'start' });
  };
  const form = () => {
    switch (doing.is) {
      case 'list':
        return (
          <div className="camp-page">
            <h1>{t('camp.title')}</h1>
            <p className="hint">{t('camp.hint')}</p>
            <Shift book={book} onMake={write} shown={kind === 'duty'} onShow={() => show('duty')} />
            <ul className="camp-kinds">
              {kinds.map((one) => (
                <li key={one}>
                  <button
                    type="button"
                    className="camp-kind"
                    aria-pressed={one === kind}
                    onClick={() => show(one)}
                  >
                    <b>{kindName(one, 2)}</b>
                    <small>
                      <Newest book={book} kind={one} />
                    </small>
                  </button>
                  <button
                    type="button"
                    data-write={one}
                    aria-label={t('camp.new', { kind: kindName(one) })}
                    onClick={() => write(one)}
                  >
                    {t('camp.write')}
                  </button>
                </li>
              ))}
            </ul>
            <p className="note">
              <Link href={placeAddress(campaign.id, hole.letter, 'import')} className="button big-link">
                {t('camp.to.import')}
              </Link>
            </p>
            <p className="hint">{t('camp.to.import.hint')}</p>
            <p className="note">
              <Link href={placeAddress(campaign.id, hole.letter, 'people')} className="button big-link">
                {t('shell.to.people')}
              </Link>
            </p>
            <p className="note">
              <Link href="/devices" className="button big-link">
                {t('campaigns.devices')}
              </Link>
            </p>
          </div>
        );
      case 'make':
        return (
          <MakeThing
            key={doing.kind}
            book={book}
            hole={null}
            kind={doing.kind}
            onMade={(thing, doubts) => setDoing({ is: 'made', thing, doubts })}
            onBack={() => setDoing({ is: 'list' })}
          />
        );
      case 'made':
        return (
          <ThingAnswer
            book={book}
            thing={doing.thing}
            doubts={doing.doubts}
            ways={[
              {
                key: 'next',
                usual: true,
                label: t('camp.back'),
                onTake: () => setDoing({ is: 'list' }),
              },
            ]}
          />
        );
    }
  };
  const listed = kind === 'duty' || kind === 'handover' ? ['duty', 'handover'] : [kind];
  const things = listed.flatMap((one) => campaign.others[one] ?? []).sort((a, b) => b.at.localeCompare(a.at));
  return (
    <div className="work camp-work">
      <section aria-label={t('place.camp')}>{form()}</section>
      <section className="beside-form" ref={list}>
        <h2>{listed.length > 1 ? t('camp.shift.history') : t('camp.list', { kind: kindName(kind, 2) })}</h2>
        {things.length === 0 ? (
          <p className="empty">{t('camp.none')}</p>
        ) : (
          <ThingList book={book} things={things} onCorrect={setCorrecting} />
        )}
      </section>
      {correcting ? (
        <CorrectDialog book={book} thing={correcting} onClose={() => setCorrecting(null)} />
      ) : null}
    </div>
  );
}

/** The newest of a kind in one line. */
function Newest({ book, kind }: { readonly book: BookHandle; readonly kind: string }) {
  const { campaign } = book;
  const thing = campaign ? newestOf(campaign, null, kind) : undefined;
  if (!campaign || !thing) return <>{t('camp.none')}</>;
  const name = ownName(thing);
  const count = thingsOfKind(campaign, null, kind).length;
  return (
    <>
      {name === '' ? null : <>{name}: </>}
      <Readings book={book} thing={thing} />
      {` · ${t('list.by', { by: initialsOf(campaign, thing.by), at: moment(thing.at) })}`}
      {count > 1 ? ` · ${count}` : ''}
    </>
  );
}
