import type { HoleView } from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { Dialog } from '../forms/dialog.tsx';
import { Icon } from '../forms/icons.tsx';
import { Later } from '../forms/later.tsx';
import { t } from '../texts/t.ts';
import { calculatorKey, useCalculatorKey } from './calculator-key.ts';

const calculator = () => import('./calculator.tsx').then(({ Calculator }) => Calculator);

/** The button in the head of every place, its key, and the calculator over that place once it is asked for. */
export function CalculatorDoor(props: {
  /** Null where no campaign is open. */
  readonly book: BookHandle | null;
  readonly hole: HoleView | undefined;
}) {
  const [isOpen, setOpen] = useState(false);
  useCalculatorKey(() => setOpen(true));
  return (
    <>
      <button
        type="button"
        className="round plain calculator-door"
        aria-haspopup="dialog"
        aria-keyshortcuts={calculatorKey}
        aria-label={t('calculator.title')}
        title={t('calculator.with.key', { key: calculatorKey })}
        onClick={() => setOpen(true)}
      >
        <Icon name="calculator" />
      </button>
      {isOpen ? (
        <Dialog title={t('calculator.title')} onClose={() => setOpen(false)}>
          <Later part={calculator} {...props} />
        </Dialog>
      ) : null}
    </>
  );
}
