import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { BookHandle, DeviceHandle } from '../device/book.ts';
import { t } from '../texts/t.ts';
import { Conflicts } from './conflicts.tsx';
import { CoreScreen } from './core-screen.tsx';
import { DrillScreen } from './drill-screen.tsx';
import { HoleForm } from './hole-form.tsx';
import { LogScreen } from './log-screen.tsx';
import { places } from './place.ts';
import { Shell } from './shell.tsx';
import { WhoChoice } from './who-dialog.tsx';

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
  if (campaign === null)
    return (
      <div className="book">
        <header className="top">
          <Link href="/" className="mark">
            {t('mark')}
          </Link>
        </header>
        <main className="alone" aria-busy="true">
          <p role="status">{book.safety.trouble ?? t('campaign.reading')}</p>
        </main>
      </div>
    );

  const place = places.find((one) => one === props.place) ?? 'drill';
  const hole = campaign.holes.find((one) => one.letter === props.hole) ?? campaign.holes[0];
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
    const Screen = { drill: DrillScreen, log: LogScreen, core: CoreScreen }[place];
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
        <Screen key={hole.id} book={book} hole={hole} />
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
