import { type Doubt, fieldOf, kindOf } from '@firnbook/campaign';
import { useState } from 'react';
import { useDraft } from '../device/draft.ts';
import { observedNow } from '../device/observed.ts';
import { moment } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import type { Ask } from './ask.ts';
import { type Asked, askTitle, FieldQuestion } from './field-question.tsx';
import { planOf } from './plans.ts';
import { TimeQuestion } from './time-question.tsx';
import type { Typed } from './typed.ts';

/** A form as it stands: kept at every tap, so that a reload brings it back. */
export interface ThingDraft {
  readonly at: number;
  readonly readings: Readonly<Record<string, string>>;
  readonly held: Typed | null;
  /** When it was seen, ISO 8601 with offset; now where it is empty. */
  readonly seen: string;
  readonly sayingWhen: boolean;
}

const empty: ThingDraft = { at: 0, readings: {}, held: null, seen: '', sayingWhen: false };

/** What became of a form: refused in words, or the thing that was made. */
export type Made =
  | { readonly ok: false; readonly refusals: readonly string[] }
  | { readonly ok: true; readonly thing: string; readonly doubts: readonly Doubt[] };

export interface ThingFormProps extends Omit<Asked, 'readings'> {
  /** Names the draft, together with the kind: the hole or the thing that it is about. */
  readonly scope: string;
  /** What the form is about, in words: "Weather", "B-R034". */
  readonly title: string;
  /** Readings that nobody has to be asked for: the newest run, the piece at hand. */
  readonly given?: Readonly<Record<string, string>>;
  /** Questions left out: a first zero has no other to be measured against. */
  readonly without?: readonly string[];
  readonly onSave: (readings: Readonly<Record<string, string>>, seen: string | undefined) => Promise<Made>;
  readonly onMade: (thing: string, doubts: readonly Doubt[]) => void;
  readonly onBack: () => void;
}

/**
 * A new thing of any kind, one question after the other, from the kind's table and its plan. It is kept with the last
 * answer; what else can be said about it is offered afterwards, and added to it.
 */
export function ThingForm(props: ThingFormProps) {
  const { campaign, hole, kind, keepFile, scope, title, given, without, onSave, onMade, onBack } = props;
  const draft = useDraft<ThingDraft>(`${kind}:${scope}`, empty);
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const [saving, setSaving] = useState(false);
  const { at, readings, held, seen, sayingWhen } = draft.value;
  const all = { ...given, ...readings };
  const asks = planOf(kind).asks.filter(
    (ask) => given?.[ask.field] === undefined && !without?.includes(ask.field),
  );
  const isAsked = (ask: Ask, so: Readonly<Record<string, string>>): boolean =>
    ask.when === undefined || ask.when.is.includes(so[ask.when.field] ?? '');
  const go = (change: Partial<ThingDraft>) => {
    setRefusals([]);
    draft.set({ ...draft.value, ...change });
  };
  const now = asks[at] ?? asks.at(-1);
  if (now === undefined) return null;

  const answer = async (text: string | null) => {
    const { [now.field]: _, ...others } = readings;
    const next = text === null ? others : { ...others, [now.field]: text };
    const following = asks.findIndex((ask, place) => place > at && isAsked(ask, { ...given, ...next }));
    if (following >= 0) {
      go({ readings: next, at: following, held: null });
      return;
    }
    if (saving) return;
    setSaving(true);
    try {
      const made = await onSave({ ...given, ...next }, seen === '' ? undefined : seen);
      if (made.ok) {
        draft.clear();
        onMade(made.thing, made.doubts);
      } else setRefusals(made.refusals);
    } finally {
      setSaving(false);
    }
  };
  const back = () => {
    const before = asks.findLastIndex((ask, place) => place < at && isAsked(ask, all));
    if (before >= 0) go({ at: before, held: null });
    else {
      draft.clear();
      onBack();
    }
  };

  if (sayingWhen)
    return (
      <TimeQuestion
        title={t('thing.when', { of: title })}
        held={seen}
        onHeld={(iso) => go({ seen: iso })}
        onTake={(iso) => go({ seen: iso === observedNow(new Date()) ? '' : iso, sayingWhen: false })}
        onBack={() => go({ seen: '', sayingWhen: false })}
      />
    );
  return (
    <>
      <FieldQuestion
        key={now.field}
        asked={{ campaign, hole, kind, readings: all, keepFile }}
        ask={now}
        title={now.title ? t(now.title, { of: title }) : askTitle(title, kind, now.field)}
        held={held}
        onHeld={(typed) => go({ held: typed })}
        onTake={(text) => void answer(text)}
        onSkip={now.must || isRequired(kind, now.field) ? undefined : () => void answer(null)}
        onBack={back}
        refusals={refusals}
      />
      {at === 0 ? (
        <button type="button" className="link below" onClick={() => go({ sayingWhen: true })}>
          {seen === '' ? t('thing.not.now') : t('thing.seen', { at: moment(seen) })}
        </button>
      ) : null}
    </>
  );
}

const isRequired = (kind: string, field: string): boolean => fieldOf(kindOf(kind)!, field)?.required === true;
