import '../texts/for-people.ts';
import { type Command, lettingStand, type ThingView, type UsedRight, whoMay } from '@firnbook/campaign';
import { Link } from 'wouter';
import type { BookHandle } from '../device/book.ts';
import { placeAddress } from '../screens/place.ts';
import { nameHere } from '../texts/names.ts';
import { t } from '../texts/t.ts';

/** Names that are told; a night's work is told by its number. */
const TOLD = 8;

/** What was written without the right to it: it stands, or what it made is withdrawn. */
export function SettleUsed(props: {
  readonly book: BookHandle;
  readonly letter: string;
  readonly used: UsedRight;
  readonly things: readonly ThingView[];
  readonly decide: (commands: readonly Command[]) => Promise<void>;
}) {
  const { book, letter, used, things, decide } = props;
  const { campaign } = book;
  if (campaign === null) return null;
  const [thing] = things;
  const isOfRights = thing?.kind === 'person' || thing?.kind === 'campaign';
  const isMade = thing !== undefined && used.entries.includes(thing.id) && thing.withdrawn === null;
  const count = used.entries.length;
  return (
    <>
      <p className="hint">
        {t(isOfRights && used.right === 'signOff' ? 'used.hint.given' : 'used.hint', {
          people: whoMay(campaign, 'signOff').join(', '),
        })}
      </p>
      {things.length > 1 ? (
        <p>
          {t('used.what')}: {things.slice(0, TOLD).map(nameHere).join(', ')}
          {things.length > TOLD ? ` ${t('used.more', { count: things.length - TOLD })}` : ''}
        </p>
      ) : null}
      <div className="choices">
        <button
          type="button"
          className="act"
          data-settle="stands"
          onClick={() => void decide(lettingStand(used))}
        >
          {t('used.stands.all', { count })}
        </button>
        {isMade && !isOfRights && things.length === 1 ? (
          <button
            type="button"
            data-settle="withdraw"
            onClick={() =>
              void decide([{ do: 'withdraw', thing: thing.id, reason: t('used.withdraw.reason') }])
            }
          >
            {t('used.withdraw', { name: nameHere(thing) })}
          </button>
        ) : null}
        <Link href={placeAddress(campaign.id, letter, 'people')} className="button big-link">
          {t('used.people')}
        </Link>
      </div>
    </>
  );
}
