import { useState } from 'react';
import { t } from '../texts/t.ts';
import { AxisPlace } from './axis-place.tsx';
import { DepthTable } from './depth-table.tsx';
import { findIce, lastRun, standing } from './hole.ts';
import type { PlaceProps } from './place.ts';
import { ThisIce } from './this-ice.tsx';

/** The core itself: touch any depth and everything known about that ice stands beside it. */
export function CoreScreen({ book, hole }: PlaceProps) {
  const [touched, setTouched] = useState<string | null>(null);
  const newest = standing(hole.runs).findLast((run) => standing(run.pieces).length > 0) ?? lastRun(hole);
  const ice =
    findIce(hole, touched ?? '') ??
    (newest ? { run: newest, piece: standing(newest.pieces).at(-1) } : undefined);
  return (
    <div className="work core">
      <h1 className="hidden">{t('core.title', { letter: hole.letter })}</h1>
      <AxisPlace book={book} hole={hole} wide thing={ice?.piece?.id ?? ice?.run.id} onTouch={setTouched} />
      <DepthTable book={book} hole={hole} selected={ice?.piece?.id} onPick={setTouched} />
      <section className="side">
        {ice ? (
          <ThisIce
            key={ice.piece?.id ?? ice.run.id}
            book={book}
            hole={hole}
            run={ice.run}
            piece={ice.piece}
          />
        ) : (
          <>
            <h2>{t('ice.title')}</h2>
            <p className="hint">{t('ice.none')}</p>
          </>
        )}
      </section>
    </div>
  );
}
