import { useEffect, useState } from 'react';
import { Link, useLocation } from 'wouter';
import { CalculatorDoor } from '../calculator/calculator-door.tsx';
import type { BookHandle, DeviceHandle } from '../device/book.ts';
import { Later } from '../forms/later.tsx';
import { sayHere } from '../texts/say-here.ts';
import { t } from '../texts/t.ts';
import { Conflicts } from './conflicts.tsx';
import { DrillScreen } from './drill-screen.tsx';
import { HoleForm } from './hole-form.tsx';
import { LogScreen } from './log-screen.tsx';
import { type CoreView, coreViews, keepPlace, lastPlace, placeAddress, placeAt } from './place.ts';
import { Shell } from './shell.tsx';
import { WhoChoice } from './who-dialog.tsx';

/** What a field form needs is there at once. */
const screens = { drill: DrillScreen, log: LogScreen };
const later = {
  today: () => import('./today-screen.tsx').then(({ TodayScreen }) => TodayScreen),
  core: () => import('./core-screen.tsx').then(({ CoreScreen }) => CoreScreen),
  camp: () => import('./camp-screen.tsx').then(({ CampScreen }) => CampScreen),
  scales: () => import('./scales-screen.tsx').then(({ ScalesScreen }) => ScalesScreen),
  readings: () => import('./readings-screen.tsx').then(({ ReadingsScreen }) => ReadingsScreen),
  zeros: () => import('./zeros-screen.tsx').then(({ ZerosScreen }) => ZerosScreen),
  versions: () => import('./versions-screen.tsx').then(({ VersionsScreen }) => VersionsScreen),
  import: () => import('./import-screen.tsx').then(({ ImportScreen }) => ImportScreen),
  people: () => import('../rights/people-screen.tsx').then(({ PeopleScreen }) => PeopleScreen),
};

/** One campaign: who writes, which hole, which place. */
export function CampaignScreen(props: {
  readonly id: string;
  /** Letter of the hole; the first one where none is named. */
  readonly hole?: string | undefined;
  readonly place?: string | undefined;
  readonly book: BookHandle;
  readonly device: DeviceHandle;
}) {
  const { id, book, device } = props;
  const [, go] = useLocation();
  const [another, setAnother] = useState(false);
  const { campaign } = book;
  const last = props.place === undefined ? lastPlace(id) : null;
  const named = placeAt(props.place ?? last?.place);
  const { place, view, page } = named ?? { place: 'drill', view: 'core', page: undefined };
  const letter = props.hole ?? last?.letter;
  const hole = campaign?.holes.find((one) => one.letter === letter) ?? campaign?.holes[0];
  const shown = page ?? (place === 'core' ? view : place);
  useEffect(() => {
    if (hole !== undefined && props.place !== undefined) keepPlace(id, hole.letter, shown);
  }, [id, hole, shown, props.place]);
  if (campaign === null)
    return (
      <div className="book">
        <header className="top">
          <Link href="/" className="mark">
            {t('mark')}
          </Link>
          <div className="right">
            <CalculatorDoor book={null} hole={undefined} />
          </div>
        </header>
        <main className="alone" aria-busy="true">
          <p role="status">{book.safety.trouble ? sayHere(book.safety.trouble) : t('campaign.reading')}</p>
        </main>
      </div>
    );

  const within = () => {
    if (book.me === null)
      return (
        <div className="alone">
          <div className="question">
            <h1>{t('who.title')}</h1>
            <p className="hint">{t('who.hint')}</p>
            <WhoChoice book={book} onDone={() => undefined} />
          </div>
        </div>
      );
    if (hole === undefined || another)
      return (
        <HoleForm
          book={book}
          onBack={hole === undefined ? undefined : () => setAnother(false)}
          onDone={(letter) => {
            setAnother(false);
            go(`/c/${id}/${letter}/drill`);
          }}
        />
      );
    const Screen = shown in screens ? screens[shown as keyof typeof screens] : null;
    return (
      <>
        <Conflicts book={book} hole={hole} />
        {book.depths[hole.id]?.converged === false ? (
          <section className="alarms" role="status">
            <div className="alarm">
              <p>{t('how.rough')}</p>
            </div>
          </section>
        ) : null}
        {place === 'core' ? <CoreViews campaign={id} letter={hole.letter} view={view} /> : null}
        {Screen ? (
          <Screen key={hole.id} book={book} hole={hole} />
        ) : (
          <Later
            key={`${shown} ${hole.id}`}
            part={later[shown as keyof typeof later]}
            book={book}
            hole={hole}
          />
        )}
      </>
    );
  };
  return (
    <Shell
      book={book}
      device={device}
      campaign={campaign}
      hole={hole}
      place={place}
      onAnotherHole={() => setAnother(true)}
    >
      {within()}
    </Shell>
  );
}

/** The core and what is looked at beside it, each with an address of its own. */
function CoreViews(props: { readonly campaign: string; readonly letter: string; readonly view: CoreView }) {
  return (
    <nav className="views" aria-label={t('view.of.core')}>
      {coreViews.map((one) => (
        <Link
          key={one}
          href={placeAddress(props.campaign, props.letter, one)}
          aria-current={one === props.view ? 'page' : undefined}
        >
          {t(`view.${one}`)}
        </Link>
      ))}
    </nav>
  );
}
