import type { ThingView } from '@firnbook/campaign';
import type { BookHandle } from '../device/book.ts';
import { Dialog } from '../forms/dialog.tsx';
import { Later } from '../forms/later.tsx';
import { t } from '../texts/t.ts';
import { thingName } from '../texts/thing-name.ts';

const form = () => import('./change-form.tsx').then(({ ChangeForm }) => ChangeForm);

/** A new reading beside the old one, with its reason; nothing is overwritten. */
export function CorrectDialog(props: {
  readonly book: BookHandle;
  readonly thing: ThingView;
  /** The reading that the person pointed at; without it the dialog asks which. */
  readonly field?: string | undefined;
  readonly onClose: () => void;
}) {
  const { book, thing, field, onClose } = props;
  return (
    <Dialog title={t('correct.title', { name: thingName(thing) })} onClose={onClose}>
      <Later part={form} book={book} thing={thing} field={field} onDone={onClose} />
    </Dialog>
  );
}
