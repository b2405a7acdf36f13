import type { CampaignView, ThingView } from '@firnbook/campaign';
import type { BookHandle } from '../device/book.ts';
import { moment } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { initialsOf } from './people.ts';
import { ReadingText } from './reading-text.tsx';
import { restOf } from './saved.tsx';
import { RestTick } from './ticks.tsx';

/** Soundings or zeros, in the order handed in; struck readings and withdrawn ones stay visible. */
export function MeasuredList(props: {
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
            <b className="name">{thing.name}</b>
            <span className="readings">
              {thing.kind.startsWith('zero') ? (
                <Zero campaign={campaign} thing={thing} />
              ) : (
                <Sounding campaign={campaign} thing={thing} />
              )}
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
          <p className="by small quiet">
            {t('list.by', { by: initialsOf(campaign, thing.by), at: moment(thing.at) })}
            <RestTick rest={restOf(book, thing.entries)} />
          </p>
          {thing.withdrawn ? null : (
            <button
              type="button"
              onClick={() => onCorrect(thing)}
              aria-label={t('answer.correct', { name: thing.name })}
            >
              {t('list.correct')}
            </button>
          )}
        </li>
      ))}
    </ol>
  );
}

interface OneProps {
  readonly campaign: CampaignView;
  readonly thing: ThingView;
}

function Sounding({ campaign, thing }: OneProps) {
  const { depth, sd, afterRun } = thing.readings;
  const moved = afterRun && (afterRun.struck.length > 0 || afterRun.against.length > 0);
  return (
    <>
      {depth ? <ReadingText campaign={campaign} thing={thing} reading={depth} /> : t('list.not.read')}
      {sd ? (
        <>
          {depth && depth.struck.length > 0 ? ', ± ' : ' ± '}
          <ReadingText campaign={campaign} thing={thing} reading={sd} />
        </>
      ) : null}
      {moved ? (
        <>
          {` ${t('list.after')} `}
          <ReadingText campaign={campaign} thing={thing} reading={afterRun} />
        </>
      ) : null}
    </>
  );
}

function Zero({ campaign, thing }: OneProps) {
  const { surface, height } = thing.readings;
  return (
    <>
      {surface ? <ReadingText campaign={campaign} thing={thing} reading={surface} /> : t('list.not.read')}
      {height ? (
        <>
          {', '}
          <ReadingText campaign={campaign} thing={thing} reading={height} />
        </>
      ) : null}
    </>
  );
}
