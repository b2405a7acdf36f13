import { type ReactNode, useId, useLayoutEffect, useRef } from 'react';
import { t } from '../texts/t.ts';
import { Icon } from './icons.tsx';

/** The platform's modal dialog: it keeps the focus inside, Escape closes it, and the focus goes back where it was. */
export function Dialog(props: {
  readonly title: string;
  readonly onClose: () => void;
  readonly wide?: boolean;
  readonly children: ReactNode;
}) {
  const box = useRef<HTMLDialogElement>(null);
  const id = useId();
  useLayoutEffect(() => {
    const before = document.activeElement as HTMLElement | null;
    const dialog = box.current;
    if (dialog && !dialog.open) {
      dialog.showModal();
      // The question inside takes the keys, not the button that closes it.
      dialog
        .querySelector<HTMLElement>('.dialog-body :is(input, textarea, button:not(.back), a[href])')
        ?.focus({ preventScroll: true });
    }
    return () => {
      dialog?.close();
      // What opened it may be gone, as a settled conflict is: then the focus goes to the start of the place.
      const home = before?.isConnected ? before : document.querySelector<HTMLElement>('main');
      home?.focus({ preventScroll: true });
    };
  }, []);
  return (
    <dialog
      ref={box}
      className={props.wide ? 'wide' : undefined}
      aria-labelledby={id}
      onCancel={(event) => {
        event.preventDefault();
        props.onClose();
      }}
    >
      <div className="dialog-head">
        <h1 id={id}>{props.title}</h1>
        <button type="button" className="close" onClick={props.onClose} aria-label={t('dialog.close')}>
          <Icon name="cross" />
        </button>
      </div>
      <div className="dialog-body">{props.children}</div>
    </dialog>
  );
}
