import type { HoleView, ThingView } from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { t } from '../texts/t.ts';
import { MeasuredList } from './measured-list.tsx';
import { RunList } from './run-list.tsx';

const lists = ['runs', 'soundings', 'zeros'] as const;

/** What was logged at the drill, one list at a time: runs, soundings, zeros, the newest first. */
export function DrillLists(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  /** The kind that was logged last stands open. */
  readonly first: 'runs' | 'soundings' | 'zeros';
  readonly onCorrect: (thing: ThingView) => void;
}) {
  const { book, hole, first, onCorrect } = props;
  const [picked, setPicked] = useState<(typeof lists)[number] | null>(null);
  const [was, setWas] = useState(first);
  if (was !== first) {
    setWas(first);
    setPicked(null);
  }
  const open = picked ?? first;
  return (
    <>
      <h2 id="drill-list">{t(`drill.list.${open}`)}</h2>
      <fieldset className="which" aria-label={t('drill.lists')}>
        {lists.map((list) => (
          <button key={list} type="button" aria-pressed={list === open} onClick={() => setPicked(list)}>
            {t(`drill.which.${list}`, { count: hole[list].length })}
          </button>
        ))}
      </fieldset>
      {open === 'runs' ? <RunList book={book} hole={hole} onCorrect={onCorrect} /> : null}
      {open !== 'runs' && hole[open].length === 0 ? <p className="empty">{t(`drill.none.${open}`)}</p> : null}
      {open !== 'runs' ? (
        <MeasuredList book={book} things={[...hole[open]].reverse()} onCorrect={onCorrect} />
      ) : null}
    </>
  );
}
