import { useState } from 'react';
import '../texts/for-screens.ts';
import { t } from '../texts/t.ts';
import { BesideCore } from './beside-core.tsx';
import { DensitySummary } from './density-summary.tsx';
import { DepthTable } from './depth-table.tsx';
import { Findings } from './findings.tsx';
import { findIce, findMeasured, lastRun, standing } from './hole.ts';
import { IceDensity } from './ice-density.tsx';
import type { PlaceProps } from './place.ts';
import { ThisIce } from './this-ice.tsx';
import { ThisMeasured } from './this-measured.tsx';
import './core.css';

/** The core itself: touch any depth and everything known about that ice stands beside it. */
export function CoreScreen({ book, hole }: PlaceProps) {
  const [touched, setTouched] = useState<string | null>(null);
  const newest = standing(hole.runs).findLast((run) => standing(run.pieces).length > 0) ?? lastRun(hole);
  const measured = findMeasured(hole, touched ?? '');
  const ice =
    measured.length > 0
      ? undefined
      : (findIce(hole, touched ?? '') ??
        (newest ? { run: newest, piece: standing(newest.pieces).at(-1) } : undefined));
  const shown = [...measured.map((one) => one.id), ice?.run.id ?? '', ice?.piece?.id ?? ''];
  // Kept up by what stands beside the core.
  const density = book.densities[hole.id];
  const side = () => {
    if (measured.length > 0) return <ThisMeasured key={touched} book={book} hole={hole} things={measured} />;
    if (ice)
      return (
        <ThisIce key={ice.piece?.id ?? ice.run.id} book={book} hole={hole} run={ice.run} piece={ice.piece}>
          {density && ice.piece ? (
            <IceDensity book={book} hole={hole} piece={ice.piece} view={density} />
          ) : null}
        </ThisIce>
      );
    return (
      <>
        <h2>{t('ice.title')}</h2>
        <p className="hint">{t('ice.none')}</p>
      </>
    );
  };
  return (
    <div className="work core">
      <h1 className="hidden">{t('core.title', { letter: hole.letter })}</h1>
      <BesideCore
        book={book}
        hole={hole}
        quantities={['density', 'driller', 'logger']}
        first={['density']}
        name="panels"
        thing={ice?.piece?.id ?? ice?.run.id}
        onTouch={setTouched}
      />
      <section className="figures">
        <div className="look-again">
          <Findings
            book={book}
            hole={hole}
            depths={book.depths[hole.id]}
            elsewhere={shown}
            onShow={setTouched}
          />
        </div>
        {density === undefined ? null : <DensitySummary view={density} />}
        <DepthTable key={hole.id} book={book} hole={hole} selected={ice?.piece?.id} onPick={setTouched} />
      </section>
      <section className="side">{side()}</section>
    </div>
  );
}
