import { type HoleView, scalesOfHole } from '@firnbook/campaign';
import { useMemo, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import '../texts/for-screens.ts';
import { t } from '../texts/t.ts';
import { BesideCore } from './beside-core.tsx';
import { MethodLink } from './method-link.tsx';
import type { PlaceProps } from './place.ts';
import { ScaleConverter } from './scale-converter.tsx';
import './scales.css';

/** The hole's depth scales held against the solved one, a depth taken from one to all others, and what was signed off. */
export function ScalesScreen({ book, hole }: PlaceProps) {
  const [touched, setTouched] = useState<string | null>(null);
  const solved = book.solved[hole.id];
  const scales = useMemo(
    () =>
      solved === undefined
        ? null
        : scalesOfHole(hole.name, solved.readings, solved.solution, t('scales.now')),
    [hole.name, solved],
  );
  return (
    <div className="work scales">
      <BesideCore
        book={book}
        hole={hole}
        quantities={['driller', 'logger']}
        first={['driller', 'logger']}
        phone="driller"
        name="panels.scales"
        thing={touched ?? undefined}
        onTouch={setTouched}
      />
      <section>
        <h1>{t('view.scales')}</h1>
        <p className="hint">
          {t('scales.hint')} <MethodLink page="depth-scales" />
        </p>
        {scales === null ? (
          <p className="quiet">{unsolved(book, hole)}</p>
        ) : (
          <>
            <ScaleConverter book={book} hole={hole} scales={scales} touched={touched} onPiece={setTouched} />
            <LeftOut hole={hole} scales={scales} />
          </>
        )}
      </section>
    </div>
  );
}

const unsolved = (book: BookHandle, hole: HoleView): string =>
  book.unsolved[hole.id] ?? (book.solving ? t('ice.solving') : t('ice.none'));

/** What the driller's and the logger's scale had to do without. */
function LeftOut(props: { readonly hole: HoleView; readonly scales: ReturnType<typeof scalesOfHole> }) {
  const { hole, scales } = props;
  const [driller, logger] = scales;
  const runs = driller.leftOut.flatMap((id) => hole.runs.find((run) => run.id === id)?.name ?? []);
  const pieces = hole.runs.flatMap((run) => run.pieces);
  const named = (ids: readonly string[]) =>
    ids.flatMap((id) => pieces.find((piece) => piece.id === id)?.name ?? []).join(', ');
  return (
    <div className="small quiet left-out">
      {runs.length > 0 ? <p>{t('scales.left.out', { count: runs.length, names: runs.join(', ') })}</p> : null}
      {logger.filled.length > 0 ? (
        <p>{t('scales.filled', { count: logger.filled.length, names: named(logger.filled) })}</p>
      ) : null}
      {logger.endsAt === null ? null : <p>{t('scales.ends', { name: named([logger.endsAt]) })}</p>}
    </div>
  );
}
