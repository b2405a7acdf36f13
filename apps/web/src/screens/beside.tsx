import type { HoleView } from '@firnbook/campaign';
import type { ReactNode } from 'react';
import type { BookHandle } from '../device/book.ts';
import { Icon } from '../forms/icons.tsx';
import { t } from '../texts/t.ts';
import { findIce } from './hole.ts';
import { ThisIce } from './this-ice.tsx';

/** The side of a field form: its list, or the ice that was touched on the axis, until the person goes back. */
export function Beside(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly touched: string | null;
  readonly onBack: () => void;
  readonly children: ReactNode;
}) {
  const ice = props.touched === null ? undefined : findIce(props.hole, props.touched);
  return (
    <section className="beside-form">
      {ice ? (
        <>
          <button type="button" className="to-list" onClick={props.onBack}>
            <Icon name="left" /> {t('ice.back')}
          </button>
          <ThisIce book={props.book} hole={props.hole} run={ice.run} piece={ice.piece} />
        </>
      ) : (
        props.children
      )}
    </section>
  );
}
