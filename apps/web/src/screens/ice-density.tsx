import { type DensityView, type HoleView, type PieceView, waterAt } from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { t } from '../texts/t.ts';
import { CorrectDialog } from './correct-dialog.tsx';
import { DensityHow } from './density-how.tsx';
import { DensityQuestion } from './density-question.tsx';
import { densityWithError, waterWithError } from './density-words.ts';
import { MethodLink } from './method-link.tsx';
import { flagsOf } from './use-density.ts';

/** Density and water of the ice that was touched, how they came about, and the question where they can't be right. */
export function IceDensity(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly piece: PieceView;
  readonly view: DensityView;
}) {
  const { book, hole, piece, view } = props;
  const [how, setHow] = useState(false);
  const [measuring, setMeasuring] = useState<string | null>(null);
  const own = view.pieces[piece.id];
  const result = own?.result ?? null;
  const flag = flagsOf(hole, view).find((one) => one.thing.id === piece.id);
  const water = own?.bottom === undefined || own.bottom === null ? null : waterAt(view, own.bottom);
  if (result === null && water === null) return null;
  return (
    <>
      <dl className="facts">
        {result === null ? null : (
          <>
            <dt>{t('density.title')}</dt>
            <dd>
              <span className="num">{densityWithError(result.density)}</span>{' '}
              <button type="button" className="link" aria-haspopup="dialog" onClick={() => setHow(true)}>
                {t('ice.how')}
              </button>
            </dd>
            <dt>{t('density.water')}</dt>
            <dd className="num">{waterWithError(result.waterEquivalent)}</dd>
          </>
        )}
        {water === null ? null : (
          <>
            <dt>{t('density.water.to')}</dt>
            <dd>
              <span className="num">{waterWithError(water)}</span> <MethodLink page="water-equivalent" />
            </dd>
          </>
        )}
      </dl>
      {flag && flag.confirmation === undefined ? (
        <div className="ask-place">
          <DensityQuestion book={book} hole={hole} flag={flag} onMeasure={setMeasuring} />
        </div>
      ) : null}
      {how && own && result ? (
        <DensityHow piece={piece} own={own} result={result} view={view} onClose={() => setHow(false)} />
      ) : null}
      {measuring === null ? null : (
        <CorrectDialog book={book} thing={piece} field={measuring} onClose={() => setMeasuring(null)} />
      )}
    </>
  );
}
