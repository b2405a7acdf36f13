import type { HoleView } from '@firnbook/campaign';
import type { ReactNode } from 'react';
import type { BookHandle } from '../device/book.ts';
import { Icon } from '../forms/icons.tsx';
import { Later } from '../forms/later.tsx';
import { t } from '../texts/t.ts';
import { Findings } from './findings.tsx';
import { findIce, findMeasured } from './hole.ts';

const thisIce = () => import('./this-ice.tsx').then(({ ThisIce }) => ThisIce);
const thisMeasured = () => import('./this-measured.tsx').then(({ ThisMeasured }) => ThisMeasured);

/** The side of a field form: its list, or what was touched on the axis, until the person goes back. */
export function Beside(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly touched: string | null;
  /** Things whose findings stand under the form's answer already. */
  readonly answered: readonly string[];
  readonly onBack: () => void;
  readonly children: ReactNode;
}) {
  const { book, hole, touched, answered, onBack, children } = props;
  const ice = touched === null ? undefined : findIce(hole, touched);
  const measured = touched === null ? [] : findMeasured(hole, touched);
  if (!ice && measured.length === 0)
    return (
      <section className="beside-form">
        <div className="look-again">
          <Findings book={book} hole={hole} depths={book.depths[hole.id]} elsewhere={answered} />
        </div>
        {children}
      </section>
    );
  return (
    <section className="beside-form">
      <button type="button" className="to-list" onClick={onBack}>
        <Icon name="left" /> {t('ice.back')}
      </button>
      {ice ? (
        <Later part={thisIce} book={book} hole={hole} run={ice.run} piece={ice.piece} />
      ) : (
        <Later part={thisMeasured} book={book} hole={hole} things={measured} />
      )}
    </section>
  );
}
