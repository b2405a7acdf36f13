import type { HoleView, ThingView } from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { t } from '../texts/t.ts';
import { RunList } from './run-list.tsx';
import { ThingList } from './thing-list.tsx';

const lists = ['runs', 'soundings', 'zeros', 'measured'] as const;
type List = (typeof lists)[number];

/** Kinds of the hole that a driller logs, beside runs, soundings and zeros. */
const measured = ['cable check', 'inclination', 'zero check'];

/** Which list a thing stands in. */
export const listOf = (kind: string): List =>
  kind === 'run' ? 'runs' : kind === 'sounding' ? 'soundings' : kind === 'zero' ? 'zeros' : 'measured';

/** What was logged at the drill, one list at a time, the newest first. */
export function DrillLists(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  /** The kind that was logged last stands open. */
  readonly first: List;
  readonly onCorrect: (thing: ThingView) => void;
}) {
  const { book, hole, first, onCorrect } = props;
  const [picked, setPicked] = useState<List | null>(null);
  const [was, setWas] = useState(first);
  if (was !== first) {
    setWas(first);
    setPicked(null);
  }
  const open = picked ?? first;
  const others = [
    ...measured.flatMap((kind) => hole.others[kind] ?? []),
    ...(book.campaign?.others['set-up'] ?? []),
  ].sort((a, b) => a.at.localeCompare(b.at));
  const things: Readonly<Record<List, readonly ThingView[]>> = {
    runs: hole.runs,
    soundings: hole.soundings,
    zeros: hole.zeros,
    measured: others,
  };
  return (
    <>
      <h2 id="drill-list">{t(`drill.list.${open}`)}</h2>
      <fieldset className="which" aria-label={t('drill.lists')}>
        {lists.map((list) => (
          <button key={list} type="button" aria-pressed={list === open} onClick={() => setPicked(list)}>
            {t(`drill.which.${list}`, { count: things[list].length })}
          </button>
        ))}
      </fieldset>
      {open === 'runs' ? (
        <RunList book={book} hole={hole} onCorrect={onCorrect} />
      ) : things[open].length === 0 ? (
        <p className="empty">{t(`drill.none.${open}`)}</p>
      ) : (
        <ThingList book={book} things={[...things[open]].reverse()} onCorrect={onCorrect} />
      )}
    </>
  );
}
