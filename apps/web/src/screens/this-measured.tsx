import type { HoleView, ThingView } from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { t } from '../texts/t.ts';
import { CorrectDialog } from './correct-dialog.tsx';
import { Findings } from './findings.tsx';
import { ThingList } from './thing-list.tsx';

/** What was touched on the axis beside the ice: a sounding, or the zeros that depths count from. */
export function ThisMeasured(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly things: readonly ThingView[];
}) {
  const { book, hole, things } = props;
  const [correcting, setCorrecting] = useState<ThingView | null>(null);
  const isZero = things[0]?.kind.startsWith('zero');
  return (
    <aside className="this-ice" aria-labelledby="this-measured">
      <h2 id="this-measured">{t(isZero ? 'drill.list.zeros' : 'ice.sounding')}</h2>
      <ThingList book={book} things={things} onCorrect={setCorrecting} />
      <div className="ask-place">
        <Findings
          book={book}
          hole={hole}
          depths={book.depths[hole.id]}
          things={things.map((thing) => thing.id)}
        />
      </div>
      {correcting ? (
        <CorrectDialog book={book} thing={correcting} onClose={() => setCorrecting(null)} />
      ) : null}
    </aside>
  );
}
