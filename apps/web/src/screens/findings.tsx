import type { DepthView, HoleView, ThingView } from '@firnbook/campaign';
import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { BookHandle } from '../device/book.ts';
import { Icon } from '../forms/icons.tsx';
import { t } from '../texts/t.ts';
import { CorrectDialog } from './correct-dialog.tsx';
import { FindingQuestion } from './finding-question.tsx';
import { askedIn, confirmedIn, type FoundWhere } from './found.ts';
import { type Place, placeAddress } from './place.ts';

/** More questions at once would bury the list that they stand above. */
const atOnce = 2;

export interface FindingsProps extends FoundWhere {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly depths: DepthView | undefined;
  /** Leads to the ice that a question is about. */
  readonly onShow?: (thing: string) => void;
}

/** What the solved depths cannot make fit, as questions with their answers; the newest ice first. */
export function Findings(props: FindingsProps) {
  const { book, hole, depths, onShow } = props;
  const [all, setAll] = useState(false);
  const [correcting, setCorrecting] = useState<{ readonly thing: ThingView; readonly field?: string } | null>(
    null,
  );
  const open = askedIn(hole, depths, props);
  const answered = confirmedIn(hole, depths, props).length;
  return (
    <>
      {open.slice(0, all ? open.length : atOnce).map((one) => (
        <FindingQuestion
          key={one.key}
          book={book}
          hole={hole}
          found={one}
          onShow={onShow}
          onMeasure={(field) => setCorrecting({ thing: one.thing, ...(field ? { field } : {}) })}
        />
      ))}
      {open.length > atOnce && !all ? (
        <button type="button" className="link" onClick={() => setAll(true)}>
          {t('finding.all', { count: open.length })}
        </button>
      ) : null}
      {answered > 0 && book.campaign ? (
        <p className="small quiet left-standing">
          {t('finding.confirmed', { count: answered })}{' '}
          <Link href={placeAddress(book.campaign.id, hole.letter, 'readings')} className="link">
            {t('finding.confirmed.see')}
          </Link>
        </p>
      ) : null}
      {correcting ? (
        <CorrectDialog
          book={book}
          thing={correcting.thing}
          field={correcting.field}
          onClose={() => setCorrecting(null)}
        />
      ) : null}
    </>
  );
}

/** Where the questions stand out of sight, below a form or the core: says that there are some, and leads there. */
export function FindingsPointer(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly place: Place;
}) {
  const { book, hole, place } = props;
  const [, go] = useLocation();
  const open = askedIn(hole, book.depths[hole.id]);
  if (open.length === 0) return null;
  return (
    <button
      type="button"
      className={`pointer ${place}`}
      aria-label={t('finding.pointer', { count: open.length })}
      onClick={() => {
        const first = document.querySelector<HTMLElement>('[data-finding]');
        if (first === null && book.campaign) {
          go(placeAddress(book.campaign.id, hole.letter, 'readings'));
          return;
        }
        first?.scrollIntoView({ block: 'center' });
        first?.querySelector('button')?.focus({ preventScroll: true });
      }}
    >
      <Icon name="warn" /> {t('finding.pointer.short', { count: open.length })}
    </button>
  );
}
