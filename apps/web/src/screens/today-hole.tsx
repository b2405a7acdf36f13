import type { CampaignView, DayClosing, DayHole } from '@firnbook/campaign';
import type { ReactNode } from 'react';
import type { BookHandle } from '../device/book.ts';
import { metres, moment, shortLength } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { MethodLink } from './method-link.tsx';
import { initialsOf } from './people.ts';

/** One hole's day: by shift, and whether what was drilled is accounted for. */
export function TodayHole({ book, day }: { readonly book: BookHandle; readonly day: DayHole }) {
  const { campaign } = book;
  if (campaign === null) return null;
  const { hole, closing } = day;
  return (
    <section className="day-hole" aria-labelledby={`day-${hole.id}`}>
      <h2 id={`day-${hole.id}`}>{t('today.hole', { letter: hole.letter })}</h2>
      <Shifts campaign={campaign} day={day} />
      <h3>{t('today.closing')}</h3>
      {closing === null ? (
        <p className="quiet">{t('today.closing.not.solved')}</p>
      ) : (
        <Ledger closing={closing} />
      )}
    </section>
  );
}

function Shifts({ campaign, day }: { readonly campaign: CampaignView; readonly day: DayHole }) {
  const who = (person: string) => initialsOf(campaign, person);
  return (
    <div className="scroll">
      <table className="figures-table shifts">
        <caption className="hidden">{t('today.shifts')}</caption>
        <thead>
          <tr>
            <th scope="col">{t('today.shift')}</th>
            <th scope="col">{t('today.driller')}</th>
            <th scope="col">{t('today.logger')}</th>
            <th scope="col">{t('today.column.runs')}</th>
            <th scope="col">{t('today.column.drilled')}</th>
            <th scope="col">{t('today.column.core')}</th>
            <th scope="col">{t('today.column.pieces')}</th>
          </tr>
        </thead>
        <tbody>
          {day.shifts.map((shift) => (
            <tr key={shift.first.id}>
              <th scope="row">
                {t('today.shift.times', { from: moment(shift.first.at), to: clock(shift.last.at) })}
                <small className="num">
                  {shift.first.name}
                  {shift.first === shift.last ? '' : ` – ${shift.last.name}`}
                </small>
              </th>
              <td data-label={t('today.driller')}>{who(shift.driller)}</td>
              <td data-label={t('today.logger')}>{shift.loggers.map(who).join(', ')}</td>
              <td className="num" data-label={t('today.column.runs')}>
                {shift.runs}
              </td>
              <td className="num" data-label={t('today.column.drilled')}>
                {metres(shift.drilled)}
              </td>
              <td className="num" data-label={t('today.column.core')}>
                {metres(shift.core)}
              </td>
              <td className="num" data-label={t('today.column.pieces')}>
                {shift.pieces}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** Both sides of the account, and what is left between them. */
function Ledger({ closing }: { readonly closing: DayClosing }) {
  const { advance, core, lost, unseen, stubBefore, stub, difference, tolerance, closes } = closing;
  const drilled = difference - stubBefore + (core + lost + unseen + stub);
  const off = { difference: shortLength(Math.abs(difference)), tolerance: shortLength(tolerance) };
  const says = closes ? 'today.closing.closes' : difference < 0 ? 'today.closing.more' : 'today.closing.less';
  return (
    <>
      <p className={closes ? 'closes' : 'call closes'}>
        {t(says, off)} <MethodLink page="verdict" section="a-day" />
      </p>
      <dl className="ledger">
        <Row label={t('today.closing.advance')}>{metres(advance)}</Row>
        <Row label={t('today.closing.chips')}>{signed(drilled - advance)}</Row>
        <Row label={t('today.closing.before')}>{signed(stubBefore)}</Row>
        <Row label={t('today.closing.core')} isSide>
          {metres(core)}
        </Row>
        <Row label={t('today.closing.lost')}>{signed(lost + unseen)}</Row>
        <Row label={t('today.closing.stub')}>{signed(stub)}</Row>
        <Row label={t('today.closing.difference')} isSide>
          {signed(difference)} ± {shortLength(tolerance)}
        </Row>
      </dl>
      {closing.open.length > 0 ? (
        <p className="quiet small">
          {t('today.closing.open', {
            count: closing.open.length,
            names: closing.open.map((run) => run.name).join(', '),
          })}
        </p>
      ) : null}
    </>
  );
}

function Row(props: { readonly label: string; readonly isSide?: boolean; readonly children: ReactNode }) {
  return (
    <div className={props.isSide ? 'row side' : 'row'}>
      <dt>{props.label}</dt>
      <dd className="num">{props.children}</dd>
    </div>
  );
}

const signed = (value: number): string => {
  const size = Math.abs(value) >= 1 ? metres(Math.abs(value)) : shortLength(Math.abs(value));
  return `${value < 0 ? '\u2212' : '+'}\u2009${size}`;
};

/** The time of day alone, in the time that the person said it in. */
const clock = (iso: string): string => /T(\d{2}:\d{2})/.exec(iso)?.[1] ?? iso;
