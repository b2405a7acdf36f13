import { asksPin, type CampaignView } from '@firnbook/campaign';
import type { BookHandle } from '../device/book.ts';
import { Icon } from '../forms/icons.tsx';
import { initialsOf } from '../screens/people.ts';
import { t } from '../texts/t.ts';

/** One tap gives the device to whoever wrote on it before. Forms that were begun stay; whoever saves has made the entry. */
export function HandOver(props: {
  readonly book: BookHandle;
  readonly campaign: CampaignView;
  /** Their PIN is to be given; from the tap on nobody writes. */
  readonly onPin: (person: string) => void;
}) {
  const { book, campaign, onPin } = props;
  const { before } = book.writer;
  if (before === null) return null;
  const initials = initialsOf(campaign, before);
  return (
    <button
      type="button"
      className="round before"
      aria-label={t('who.to', { initials })}
      title={t('who.to', { initials })}
      onClick={() => {
        if (!asksPin(campaign)) return book.setMe(before);
        book.writer.handOver();
        onPin(before);
      }}
    >
      <Icon name="swap" />
      {initials}
    </button>
  );
}

/** Whoever writes has a PIN and did not give it here: they log on, and are asked for it. */
export function UncheckedNews({ book, onGive }: { readonly book: BookHandle; readonly onGive: () => void }) {
  const { campaign, me, safety, writer } = book;
  if (campaign === null || me === null || writer.unproven !== 'not given') return null;
  const initials = initialsOf(campaign, me);
  return (
    <div className="news unchecked-news" role="status">
      <p>
        <b>{t('who.unchecked')}</b>{' '}
        <span className="why">
          {t(safety.camp === 'reachable' ? 'who.unchecked.give' : 'who.unchecked.away', { initials })}
        </span>
      </p>
      <button type="button" onClick={onGive}>
        {t('who.give')}
      </button>
    </div>
  );
}
