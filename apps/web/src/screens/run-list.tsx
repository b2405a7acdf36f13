import type { CampaignView, HoleView, RunView, ThingView } from '@firnbook/campaign';
import { memo } from 'react';
import type { BookHandle, Rest } from '../device/book.ts';
import { metres, moment } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { CorrectButton } from './correct-button.tsx';
import { fieldsOf } from './fields.ts';
import { drilled, standing } from './hole.ts';
import { initialsOf } from './people.ts';
import { ReadingText } from './reading-text.tsx';
import { restOf } from './saved.tsx';
import { Readings } from './thing-list.tsx';
import { RestTick } from './ticks.tsx';

/** What stands in no column of its own; set-up and zero are the same from run to run and stand beside the ice. */
const others = fieldsOf('run')
  .map((field) => field.name)
  .filter((name) => !['from', 'to', 'recovered', 'setup', 'zero'].includes(name));

/** The runs so far, the newest first; struck readings and withdrawn runs stay visible. */
export function RunList(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly onCorrect: (thing: ThingView) => void;
}) {
  const { book, hole, onCorrect } = props;
  const campaign = book.campaign;
  if (!campaign) return null;
  if (hole.runs.length === 0) return <p className="empty">{t('run.list.empty')}</p>;
  return (
    <ol className="list runs">
      {[...hole.runs].reverse().map((run) => (
        <Row
          key={run.id}
          campaign={campaign}
          run={run}
          rest={restOf(book, run.entries)}
          onCorrect={onCorrect}
        />
      ))}
    </ol>
  );
}

interface RowProps {
  readonly campaign: CampaignView;
  readonly run: RunView;
  readonly rest: Rest;
  readonly onCorrect: (thing: ThingView) => void;
}

/** One entry more leaves the other runs as they are: hundreds of lines are not drawn anew for it. */
const Row = memo(function Row({ campaign, run, rest, onCorrect }: RowProps) {
  return (
    <li className={run.withdrawn ? 'run withdrawn' : 'run'}>
      <RunLine campaign={campaign} run={run} />
      <p className="more-said small">
        <Readings book={{ campaign }} thing={run} only={others} />
      </p>
      <p className="by small quiet">
        {t('list.by', { by: initialsOf(campaign, run.by), at: moment(run.at) })}
        <RestTick rest={rest} />
      </p>
      <CorrectButton thing={run} onCorrect={onCorrect} />
    </li>
  );
}, isSameRow);

/** Of the campaign a line shows the people's initials alone: what it names in words stands in its run's view. */
function isSameRow(a: RowProps, b: RowProps): boolean {
  const [before, now] = [a.campaign.people, b.campaign.people];
  return (
    a.run === b.run &&
    a.rest === b.rest &&
    a.onCorrect === b.onCorrect &&
    before.length === now.length &&
    before.every((person, at) => person === now[at])
  );
}

function RunLine({ campaign, run }: { readonly campaign: CampaignView; readonly run: RunView }) {
  const advance = drilled(run);
  const from = run.readings.from;
  const to = run.readings.to;
  const pieces = standing(run.pieces).length;
  return (
    <p className="line">
      <b className="num name">{run.name}</b>
      {run.aliases.length > 0 ? (
        <span className="alias quiet small"> {t('list.alias', { names: run.aliases.join(', ') })}</span>
      ) : null}
      <span className="readings">
        {from ? <ReadingText campaign={campaign} thing={run} reading={from} /> : t('list.not.read')}{' '}
        {t('list.to')}{' '}
        {to ? <ReadingText campaign={campaign} thing={run} reading={to} /> : t('list.not.read')}
      </span>
      <span className="quiet">
        {advance === null ? '' : `${t('list.drilled', { advance: metres(advance) })} `}
        {run.nothingRecovered
          ? t('list.nothing')
          : pieces > 0
            ? t('list.pieces', { count: pieces })
            : t('list.no.pieces')}
        {run.withdrawn
          ? ` ${t('list.withdrawn', { by: initialsOf(campaign, run.withdrawn.by), reason: run.withdrawn.reason })}`
          : ''}
      </span>
    </p>
  );
}
