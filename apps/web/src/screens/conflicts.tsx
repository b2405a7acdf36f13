import { type ConflictView, countedTwice, type HoleView } from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { Dialog } from '../forms/dialog.tsx';
import { Later } from '../forms/later.tsx';
import { sayHere } from '../texts/say-here.ts';
import { t } from '../texts/t.ts';

const settle = () => import('./settle-conflict.tsx').then(({ Settle }) => Settle);

/** Two runs of one number are both in the depths and in every total meanwhile. */
function twiceWords(hole: HoleView, conflict: ConflictView): string {
  const says = countedTwice(hole, conflict);
  return says === null ? '' : sayHere(says);
}

/** What cannot both be true, each with the way to settle it. Work goes on meanwhile. */
export function Conflicts({ book, hole }: { readonly book: BookHandle; readonly hole: HoleView }) {
  const [open, setOpen] = useState<string | null>(null);
  // Weather, checks and stakes are told to the whole campaign; so is who may do what.
  const around =
    book.campaign?.conflicts?.filter(({ kind }) => kind === 'two readings' || kind === 'right used') ?? [];
  const conflicts = [...hole.conflicts, ...around];
  const conflict = conflicts.find((one) => one.key === open);
  if (conflicts.length === 0) return null;
  return (
    <section className="alarms" aria-label={t('conflict.title')}>
      {conflicts.map((one) => (
        <div key={one.key} className="alarm" data-conflict={one.kind}>
          <p>
            <b>{sayHere(one.says)}</b> {twiceWords(hole, one)}
          </p>
          <button type="button" aria-haspopup="dialog" onClick={() => setOpen(one.key)}>
            {t('conflict.settle')}
          </button>
        </div>
      ))}
      {conflict ? (
        <Dialog title={sayHere(conflict.says)} onClose={() => setOpen(null)} wide>
          <Later
            part={settle}
            key={conflict.key}
            book={book}
            hole={hole}
            conflict={conflict}
            onDone={() => setOpen(null)}
          />
        </Dialog>
      ) : null}
    </section>
  );
}
