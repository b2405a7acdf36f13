import type { HoleView } from '@firnbook/campaign';
import type { BookHandle } from '../device/book.ts';
import { ThingForm, type ThingFormProps } from '../forms/thing-form.tsx';
import { kindName } from '../texts/names.ts';
import { refusalLines } from './refusal-lines.ts';

/** A form that makes a new thing of a kind in this book. */
export function MakeThing(
  props: Pick<ThingFormProps, 'kind' | 'given' | 'without' | 'onMade' | 'onBack'> & {
    readonly book: BookHandle;
    readonly hole: HoleView | null;
    /** What it is about, where that is not the kind alone: "B-P034.2: feature". */
    readonly title?: string;
    readonly scope?: string;
  },
) {
  const { book, hole, kind, title, scope, ...rest } = props;
  if (book.campaign === null) return null;
  return (
    <ThingForm
      {...rest}
      campaign={book.campaign}
      hole={hole}
      kind={kind}
      keepFile={book.keepFile}
      scope={scope ?? hole?.id ?? book.campaign.id}
      title={title ?? kindName(kind)}
      onSave={async (readings, seen) => {
        const taken = await book.decide(
          { do: 'log', kind, ...(hole ? { hole: hole.id } : {}), readings },
          seen,
        );
        if (!taken.ok) return { ok: false, refusals: refusalLines(taken.refusals) };
        return { ok: true, thing: taken.entries[0] ?? '', doubts: taken.doubts };
      }}
    />
  );
}
