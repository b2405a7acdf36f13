import type { HoleView, RunView, ThingView } from '@firnbook/campaign';
import type { BookHandle } from '../device/book.ts';
import { depth, moment } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { CorrectButton } from './correct-button.tsx';
import { fieldsOf } from './fields.ts';
import { initialsOf } from './people.ts';
import { ReadingText } from './reading-text.tsx';
import { restOf } from './saved.tsx';
import { Readings } from './thing-list.tsx';
import { RestTick } from './ticks.tsx';

/** What stands in no column of its own. */
const others = fieldsOf('piece')
  .map((field) => field.name)
  .filter((name) => !['run', 'length', 'topBreak', 'loss'].includes(name));

/** The pieces of a run as they lie on the bench, top first; struck readings and withdrawn pieces stay visible. */
export function PieceList(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly run: RunView;
  readonly onCorrect: (thing: ThingView) => void;
}) {
  const { book, hole, run, onCorrect } = props;
  const campaign = book.campaign;
  if (!campaign) return null;
  if (run.pieces.length === 0) return <p className="empty">{t('piece.list.empty')}</p>;
  return (
    <ol className="list runs">
      {run.pieces.map((piece) => {
        const solved = book.depths[hole.id]?.pieces[piece.id];
        const { length, topBreak, loss } = piece.readings;
        return (
          <li key={piece.id} className={piece.withdrawn ? 'run withdrawn' : 'run'}>
            <p className="line">
              <b className="num name">{piece.name}</b>
              <span className="readings">
                {length ? (
                  <ReadingText campaign={campaign} thing={piece} reading={length} />
                ) : (
                  t('list.not.read')
                )}
              </span>
              <span className="quiet">
                {topBreak ? <ReadingText campaign={campaign} thing={piece} reading={topBreak} /> : null}
                {loss ? (
                  <>
                    {', '}
                    <ReadingText campaign={campaign} thing={piece} reading={loss} />
                  </>
                ) : null}
                {solved && !piece.withdrawn ? (
                  <span className="solved"> {t('piece.list.solved', { top: depth(solved.top) })}</span>
                ) : null}
                {piece.withdrawn
                  ? ` ${t('list.withdrawn', { by: initialsOf(campaign, piece.withdrawn.by), reason: piece.withdrawn.reason })}`
                  : ''}
              </span>
            </p>
            <p className="more-said small">
              <Readings book={book} thing={piece} only={others} />
            </p>
            <p className="by small quiet">
              {t('list.by', { by: initialsOf(campaign, piece.by), at: moment(piece.at) })}
              <RestTick rest={restOf(book, piece.entries)} />
            </p>
            <CorrectButton thing={piece} onCorrect={onCorrect} />
          </li>
        );
      })}
    </ol>
  );
}
