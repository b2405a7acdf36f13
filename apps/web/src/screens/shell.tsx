import type { CampaignView, HoleView } from '@firnbook/campaign';
import { type ReactNode, useState } from 'react';
import { Link } from 'wouter';
import { CalculatorDoor } from '../calculator/calculator-door.tsx';
import type { BookHandle, DeviceHandle } from '../device/book.ts';
import { Dialog } from '../forms/dialog.tsx';
import { Icon } from '../forms/icons.tsx';
import { Later } from '../forms/later.tsx';
import { keepTheme, themeNames, useTheme } from '../look/theme.ts';
import { StandingAlarm } from '../pair/standing-alarm.tsx';
import { HandOver, UncheckedNews } from '../people/hand-over.tsx';
import { type Said, sayHere } from '../texts/say-here.ts';
import { t } from '../texts/t.ts';
import { FindingsPointer } from './findings.tsx';
import { initialsOf } from './people.ts';
import { type Place, placeAddress, places } from './place.ts';
import { RoomAlarm } from './room-alarm.tsx';
import { Ticks } from './ticks.tsx';
import { UpdateNews } from './update-news.tsx';
import { PinWanted, WhoDialog } from './who-dialog.tsx';

const recordDialog = () => import('./record-dialog.tsx').then(({ RecordDialog }) => RecordDialog);

export interface ShellProps {
  readonly book: BookHandle;
  readonly device: DeviceHandle;
  readonly campaign: CampaignView;
  readonly hole: HoleView | undefined;
  readonly place: Place;
  readonly onAnotherHole: () => void;
  readonly children: ReactNode;
}

type Open = 'record' | 'who' | 'hole' | null;

/** What stands around every place: whose book, where, how safe the record is, who writes, and what needs a person. */
export function Shell({ book, device, campaign, hole, place, onAnotherHole, children }: ShellProps) {
  const [open, setOpen] = useState<Open>(null);
  /** Who takes over, where their PIN is asked at once. */
  const [taking, setTaking] = useState<string | null>(null);
  const close = () => {
    setOpen(null);
    setTaking(null);
  };
  const ask = (person: string | null) => {
    setTaking(person);
    setOpen('who');
  };
  const href = (to: Place, letter = hole?.letter ?? '') => `/c/${campaign.id}/${letter}/${to}`;
  return (
    <div className="book">
      <header className="top">
        <Link href="/" className="mark">
          {t('mark')}
        </Link>
        <button type="button" className="whose" aria-haspopup="dialog" onClick={() => setOpen('hole')}>
          <b className="camp-place">{t(`place.${place}`)}</b>{' '}
          <span className="camp-name">{campaign.name}</span>
          <span className="camp-dot"> ·</span>{' '}
          <span className="camp-hole">
            {hole ? t('shell.hole', { letter: hole.letter }) : t('shell.no.hole')}
          </span>
          <Icon name="down" />
        </button>
        {hole ? (
          <nav className="places" aria-label={t('shell.places')}>
            {places.map((one) => (
              <Link
                key={one}
                href={href(one)}
                className={`nav-${one}`}
                aria-current={one === place ? 'page' : undefined}
              >
                {t(`place.${one}`)}
              </Link>
            ))}
            {book.me === null ? null : <FindingsPointer book={book} hole={hole} place={place} />}
          </nav>
        ) : null}
        {campaign.invented ? <span className="invented">{t('shell.invented')}</span> : null}
        <div className="right">
          <Ticks safety={book.safety} onOpen={() => setOpen('record')} />
          <CalculatorDoor book={book} hole={hole} />
          <ThemeButton />
          <HandOver book={book} campaign={campaign} onPin={ask} />
          <button
            type="button"
            className={book.writer.unproven === 'not given' ? 'round unchecked' : 'round'}
            aria-haspopup="dialog"
            aria-label={
              book.me === null
                ? t('who.title')
                : [
                    t('who.now', { initials: initialsOf(campaign, book.me) }),
                    ...(book.writer.unproven === 'not given' ? [t('who.unchecked')] : []),
                  ].join('. ')
            }
            onClick={() => ask(null)}
          >
            {book.me === null ? '?' : initialsOf(campaign, book.me)}
          </button>
        </div>
      </header>
      <StandingAlarm />
      <Alarms book={book} device={device} hole={hole} />
      <UncheckedNews book={book} onGive={() => ask(book.me)} />
      <main tabIndex={-1}>{children}</main>
      {open === 'record' ? (
        <Later part={recordDialog} book={book} device={device} hole={hole} onClose={close} />
      ) : null}
      {open === 'who' ? <WhoDialog book={book} person={taking} onDone={close} onClose={close} /> : null}
      <PinWanted book={book} />
      {open === 'hole' ? (
        <Dialog title={campaign.name} onClose={close}>
          {campaign.invented ? <p className="quiet">{t('shell.invented')}</p> : null}
          <ul className="choices">
            {campaign.holes.map((one) => (
              <li key={one.id}>
                <Link
                  href={href(place, one.letter)}
                  className={one === hole ? 'button act big-link' : 'button big-link'}
                  onClick={close}
                >
                  {t('shell.hole.runs', { letter: one.letter, count: one.runs.length })}
                </Link>
              </li>
            ))}
          </ul>
          <div className="answers dialog-row">
            {hole ? (
              <Link href={href('camp')} className="button big-link" onClick={close}>
                {t('shell.to.camp')}
              </Link>
            ) : null}
            {hole ? (
              <Link
                href={placeAddress(campaign.id, hole.letter, 'people')}
                className="button big-link"
                onClick={close}
              >
                {t('shell.to.people')}
              </Link>
            ) : null}
            {hole ? (
              <Link
                href={placeAddress(campaign.id, hole.letter, 'import')}
                className="button big-link"
                onClick={close}
              >
                {t('shell.to.import')}
              </Link>
            ) : null}
            <button
              type="button"
              onClick={() => {
                close();
                onAnotherHole();
              }}
            >
              {t('shell.another.hole')}
            </button>
            <Link href="/" className="button big-link">
              {t('shell.campaigns')}
            </Link>
          </div>
        </Dialog>
      ) : null}
    </div>
  );
}

/** One press, the next look. */
export function ThemeButton() {
  const theme = useTheme();
  const next = themeNames[(themeNames.indexOf(theme) + 1) % themeNames.length] ?? 'standard';
  const sign = { standard: 'half', sun: 'sun', night: 'moon' } as const;
  return (
    <button
      type="button"
      className="round plain"
      onClick={() => keepTheme(document, next)}
      aria-label={t('look.switch', { now: t(`look.${theme}`), next: t(`look.${next}`) })}
      title={t('look.switch', { now: t(`look.${theme}`), next: t(`look.${next}`) })}
    >
      <Icon name={sign[theme]} />
    </button>
  );
}

/** Only the last entry is concerned; what else there is to say of the tablet is said beside it. */
const isOneEntry = ({ key }: Said): boolean => key === 'trouble.again' || key === 'trouble.full';

/** What stops the record from being safe, and a new version that waits. */
function Alarms(props: {
  readonly book: BookHandle;
  readonly device: DeviceHandle;
  readonly hole: HoleView | undefined;
}) {
  const { book, device, hole } = props;
  const { safety } = book;
  return (
    <>
      <div role="alert">
        {safety.trouble !== null ? (
          <div className="alarm">
            <p>
              <b>{t(isOneEntry(safety.trouble) ? 'alarm.again' : 'alarm.trouble')}</b>{' '}
              {sayHere(safety.trouble)}
            </p>
          </div>
        ) : null}
        <RoomAlarm book={book} device={device} />
        {book.loss !== null ? (
          <div className="alarm">
            {book.loss.kind === 'lost' ? (
              <p>
                <b>{t('alarm.lost')}</b> {t('alarm.lost.mend')}
              </p>
            ) : (
              <p>{t('alarm.back', { count: book.loss.count })}</p>
            )}
            <button type="button" onClick={book.seenLoss}>
              {t('alarm.seen')}
            </button>
          </div>
        ) : null}
        {safety.cloned.length > 0 ? (
          <div className="alarm">
            <p>
              <b>{t('alarm.cloned', { count: safety.cloned.length })}</b> {t('alarm.cloned.mend')}
            </p>
          </div>
        ) : null}
      </div>
      {hole && hole.notUnderstood > 0 ? (
        <div className="news">
          <p>{t('record.unknown', { count: hole.notUnderstood })}</p>
        </div>
      ) : null}
      <UpdateNews device={device} />
    </>
  );
}
