import { type ThingView, todayView } from '@firnbook/campaign';
import { useMemo, useRef, useState } from 'react';
import { Link } from 'wouter';
import type { BookHandle } from '../device/book.ts';
import { Dialog } from '../forms/dialog.tsx';
import { kindName, nameHere, wordName } from '../texts/names.ts';
import { metres, moment } from '../texts/numbers.ts';
import '../texts/for-screens.ts';
import { t } from '../texts/t.ts';
import { MakeThing } from './make.tsx';
import { initialsOf } from './people.ts';
import { type PlaceProps, placeAddress } from './place.ts';
import { Readings } from './thing-list.tsx';
import { TodayDevices } from './today-devices.tsx';
import { TodayHole } from './today-hole.tsx';
import { TodayNeeds } from './today-needs.tsx';
import './today.css';

const DAY = 86_400_000;

/** What was done in 24 hours, whether it closes, what needs a person, who is on shift and what the last one says. */
export function TodayScreen({ book, hole }: PlaceProps) {
  // Null is now; else the end of the day that is looked at, ms since 1970.
  const [until, setUntil] = useState<number | null>(null);
  const [writing, setWriting] = useState<'handover' | 'weather' | null>(null);
  const title = useRef<HTMLHeadingElement>(null);
  const { campaign, depths } = book;
  const now = Date.now();
  // The clock's minute: the sums need no more, and stay the same between two looks.
  const to = until ?? Math.ceil(now / 60_000) * 60_000;
  const today = useMemo(
    () => (campaign === null ? null : todayView(campaign, depths, to)),
    [campaign, depths, to],
  );
  if (campaign === null || today === null) return null;
  const { totals } = today;
  const camp = placeAddress(campaign.id, hole.letter, 'camp');
  /** The button that was pressed goes with this; the day's title takes the focus. */
  const show = (at: number | null) => {
    setUntil(at);
    title.current?.focus();
  };
  const later = () => {
    const next = to + DAY;
    if (next >= now) show(null);
    else setUntil(next);
  };
  return (
    <div className="work today">
      <div className="day-left">
        <section className="day">
          <div className="day-head">
            <h1 ref={title} tabIndex={-1}>
              {until === null
                ? t('today.title')
                : t('today.title.then', { at: momentIn(to, today.lastWork) })}
            </h1>
            <div className="day-steps">
              <button type="button" onClick={() => setUntil(to - DAY)}>
                {t('today.earlier')}
              </button>
              {until === null ? null : (
                <>
                  <button type="button" onClick={later}>
                    {t('today.later')}
                  </button>
                  <button type="button" onClick={() => show(null)}>
                    {t('today.now')}
                  </button>
                </>
              )}
            </div>
          </div>
          {totals.runs === 0 ? (
            <NothingDone last={today.lastWork} onShow={(at) => show(endOfWork(at))} />
          ) : (
            <dl className="sums">
              <Sum
                figure={String(totals.runs)}
                says={t('today.runs', { count: totals.runs }).replace(/^\d+\s/, '')}
              >
                {totals.empty > 0 ? t('today.runs.empty', { count: totals.empty }) : null}
              </Sum>
              <Sum figure={metres(totals.drilled)} says={t('today.drilled')} />
              <Sum figure={metres(totals.core)} says={t('today.core')} />
              <Sum
                figure={String(totals.pieces)}
                says={t('today.pieces', { count: totals.pieces }).replace(/^\d+\s/, '')}
              >
                {t('today.weighed', { count: totals.weighed })}
              </Sum>
            </dl>
          )}
        </section>
        {today.holes.length === 0 ? null : (
          <section className="day-holes">
            {today.holes.map((one) => (
              <TodayHole key={one.hole.id} book={book} day={one} />
            ))}
          </section>
        )}
      </div>
      <div className="day-right">
        <TodayNeeds book={book} hole={hole} needs={today.needs} />
        {until === null ? <TodayDevices book={book} /> : null}
        <section className="day-side">
          <h2>{t('today.shift.on')}</h2>
          {today.onShift.length === 0 ? (
            <p className="quiet">{t('today.shift.none')}</p>
          ) : (
            <ul className="on-shift">
              {today.onShift.map((duty) => (
                <li key={duty.id}>
                  <b>{initialsOf(campaign, duty.readings.person?.text ?? '')}</b>{' '}
                  {wordName('duty', 'as', duty.readings.as?.text ?? '').toLowerCase()}
                </li>
              ))}
            </ul>
          )}
          <p>
            <Link href={camp} className="link">
              {t('today.shift.change')}
            </Link>
          </p>
          <h2>{t('today.handover')}</h2>
          {today.handover ? (
            <Handover book={book} handover={today.handover} />
          ) : (
            <p className="quiet">{t('today.handover.none')}</p>
          )}
          <button type="button" onClick={() => setWriting('handover')}>
            {t('today.handover.write')}
          </button>
          <h2>{t('today.weather')}</h2>
          {today.weather ? (
            <p>
              <Readings book={book} thing={today.weather} />{' '}
              <span className="quiet small">
                {t('list.by', { by: initialsOf(campaign, today.weather.by), at: moment(today.weather.at) })}
              </span>
            </p>
          ) : (
            <p className="quiet">{t('today.weather.none')}</p>
          )}
          <button type="button" onClick={() => setWriting('weather')}>
            {t('today.weather.write')}
          </button>
        </section>
      </div>
      {writing ? (
        <Dialog title={kindName(writing)} onClose={() => setWriting(null)}>
          <MakeThing
            book={book}
            hole={null}
            kind={writing}
            onMade={() => setWriting(null)}
            onBack={() => setWriting(null)}
          />
        </Dialog>
      ) : null}
    </div>
  );
}

/** One number that a crew reads to each other, with what it counts under it. */
function Sum(props: { readonly figure: string; readonly says: string; readonly children?: React.ReactNode }) {
  return (
    <div>
      <dd className="big">{props.figure}</dd>
      <dt>
        {props.says}
        {props.children ? <small>{props.children}</small> : null}
      </dt>
    </div>
  );
}

function NothingDone(props: { readonly last: string | null; readonly onShow: (at: string) => void }) {
  const { last, onShow } = props;
  if (last === null) return <p className="empty">{t('today.never')}</p>;
  return (
    <div className="nothing">
      <p>
        {t('today.nothing')} {t('today.last.work', { at: moment(last) })}
      </p>
      <button type="button" onClick={() => onShow(last)}>
        {t('today.to.last')}
      </button>
    </div>
  );
}

function Handover({ book, handover }: { readonly book: BookHandle; readonly handover: ThingView }) {
  const { campaign } = book;
  if (campaign === null) return null;
  const to = handover.readings.to;
  return (
    <blockquote className="handover">
      <p>{handover.readings.says?.text}</p>
      <p className="small quiet">
        {t('list.by', { by: initialsOf(campaign, handover.by), at: moment(handover.at) })}
        {to ? ` · ${t('today.handover.to', { name: nameHere(handover) })}` : ''}
      </p>
    </blockquote>
  );
}

/** The day that ends just after the last work. */
const endOfWork = (at: string): number => Math.ceil((Date.parse(at) + 1) / 60_000) * 60_000;

/** A moment in the time that people at the hole last said theirs in; in this device's where nobody did. */
function momentIn(at: number, said: string | null): string {
  const zone = /([+-])(\d{2}):(\d{2})$/.exec(said ?? '');
  const minutes = zone
    ? Number(`${zone[1]}1`) * (60 * Number(zone[2]) + Number(zone[3]))
    : -new Date(at).getTimezoneOffset();
  return moment(new Date(at + minutes * 60_000).toISOString());
}
