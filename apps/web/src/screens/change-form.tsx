import { type Command, type Doubt, findThing, type ThingView } from '@firnbook/campaign';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import type { Ask } from '../forms/ask.ts';
import { ChoiceQuestion } from '../forms/choice-question.tsx';
import { askTitle, FieldQuestion } from '../forms/field-question.tsx';
import { askOf, asksOf, planOf } from '../forms/plans.ts';
import { type Typed, typedOf } from '../forms/typed.ts';
import { fieldName } from '../texts/names.ts';
import { t } from '../texts/t.ts';
import { thingName } from '../texts/thing-name.ts';
import { Doubts } from './doubts.tsx';
import { readingFace, readingWords } from './reading-text.tsx';
import { refusalLines } from './refusal-lines.ts';
import { WhyQuestion } from './why-question.tsx';

const reasons = ['reason.again', 'reason.slip', 'reason.unit', 'reason.wrong.thing'] as const;
const restoreReasons = ['reason.mistake', 'reason.there'] as const;
const withdrawReasons = ['reason.twice', 'reason.not.here', 'reason.test'] as const;

export interface ChangeFormProps {
  readonly book: BookHandle;
  readonly thing: ThingView;
  /** The reading that the person pointed at; without it the form asks which. */
  readonly field?: string | undefined;
  /** More is said about a thing that was just logged: what is open stands first, and each answer leads back to it. */
  readonly adding?: boolean;
  readonly onDone: () => void;
}

type Doing =
  | { readonly is: 'pick' }
  | { readonly is: 'more' }
  | { readonly is: 'said'; readonly doubts: readonly Doubt[] }
  | { readonly is: 'value'; readonly ask: Ask }
  | { readonly is: 'why'; readonly ask: Ask; readonly text: string }
  | { readonly is: 'withdraw' };

/**
 * What is known of a thing, reading by reading: a new one beside the old one with its reason, or one that nobody has
 * given yet. Nothing is overwritten.
 */
export function ChangeForm({ book, thing, field, adding, onDone }: ChangeFormProps) {
  const first: Doing = adding ? { is: 'more' } : { is: 'pick' };
  const [doing, setDoing] = useState<Doing>(
    field === undefined ? first : { is: 'value', ask: askOf(thing.kind, field) },
  );
  const [held, setHeld] = useState<Typed | null>(null);
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const { campaign } = book;
  if (campaign === null) return null;
  const { hole } = findThing(campaign, thing.id) ?? { hole: null };
  const name = thingName(thing);
  const before = (ask: Ask) => thing.readings[ask.field]?.text ?? '';
  const words = (ask: Ask, text: string) =>
    text === '' ? t('correct.none') : readingWords(thing.kind, ask.field, text, campaign);

  const go = (next: Doing) => {
    setRefusals([]);
    setHeld(null);
    setDoing(next);
  };
  const decide = async (command: Command, next: Doing | null) => {
    const taken = await book.decide(command);
    if (!taken.ok) setRefusals(refusalLines(taken.refusals));
    else if (taken.doubts.length > 0) go({ is: 'said', doubts: taken.doubts });
    else if (next) go(next);
    else onDone();
  };
  const correct = (ask: Ask, text: string, reason: string) =>
    decide(
      { do: 'correct', thing: thing.id, readings: { [ask.field]: text }, reason },
      adding ? first : null,
    );
  const add = (ask: Ask, text: string) =>
    decide({ do: 'add', thing: thing.id, readings: { [ask.field]: text } }, adding ? first : null);
  const take = (ask: Ask, text: string) => {
    // What nobody has said yet strikes nothing through, so nobody has to say why.
    if (thing.readings[ask.field] === undefined) void add(ask, text);
    else go({ is: 'why', ask, text });
  };
  const asks = asksOf(thing.kind);
  const said = asks.filter((ask) => thing.readings[ask.field]);
  const open = asks.filter((ask) => !thing.readings[ask.field]);
  const button = (ask: Ask) => ({
    key: ask.field,
    label: fieldName(thing.kind, ask.field),
    hint: thing.readings[ask.field] ? words(ask, before(ask)) : undefined,
    onTake: () => go({ is: 'value', ask }),
  });
  if (thing.withdrawn !== null)
    return (
      <WhyQuestion
        says={t('correct.restore.says', { name })}
        reasons={restoreReasons.map((key) => t(key))}
        refusals={refusals}
        onBack={onDone}
        onReason={(reason) => void decide({ do: 'restore', thing: thing.id, reason }, null)}
      />
    );
  switch (doing.is) {
    case 'pick':
      return (
        <ChoiceQuestion
          title={t('correct.which')}
          choices={[
            ...said.map(button),
            ...(open.length > 0
              ? [{ key: 'more', label: t('correct.more'), onTake: () => go({ is: 'more' }) }]
              : []),
            {
              key: 'withdraw',
              label: t('correct.withdraw', { name }),
              hint: t('correct.withdraw.hint'),
              onTake: () => go({ is: 'withdraw' }),
            },
          ]}
        />
      );
    case 'more':
      return (
        <ChoiceQuestion
          title={t('more.title', { name })}
          columns={2}
          choices={[
            ...(adding ? planOf(thing.kind).more : open).map(button),
            ...(adding ? [{ key: 'done', usual: true, label: t('more.done'), onTake: onDone }] : []),
          ]}
          onBack={adding ? onDone : () => go(first)}
        />
      );
    case 'value': {
      const { ask } = doing;
      const reading = before(ask);
      const unit = typedOf(reading, '').unit;
      return (
        <FieldQuestion
          key={ask.field}
          asked={{
            campaign,
            hole,
            kind: thing.kind,
            readings: Object.fromEntries(Object.values(thing.readings).map((one) => [one.field, one.text])),
            keepFile: book.keepFile,
          }}
          ask={unit !== '' && ask.units?.includes(unit) ? { ...ask, units: unitFirst(ask.units, unit) } : ask}
          title={
            reading === ''
              ? askTitle(name, thing.kind, ask.field)
              : t('correct.new', { field: fieldName(thing.kind, ask.field) })
          }
          hint={reading === '' ? undefined : t('correct.before', { text: words(ask, reading) })}
          held={held}
          onHeld={setHeld}
          onTake={(text) => take(ask, text)}
          correcting
          onBack={() => go(first)}
          refusals={refusals}
        />
      );
    }
    case 'why': {
      const { ask, text } = doing;
      const face = readingFace(thing.kind, ask.field);
      return (
        <WhyQuestion
          says={
            <>
              {fieldName(thing.kind, ask.field)}: <s className={face}>{words(ask, before(ask))}</s>{' '}
              <span className={`${face} strong`}>{words(ask, text)}</span>
            </>
          }
          reasons={reasons.map((key) => t(key))}
          refusals={refusals}
          onBack={() => go(first)}
          onReason={(reason) => void correct(ask, text, reason)}
        />
      );
    }
    case 'withdraw':
      return (
        <WhyQuestion
          says={t('correct.withdraw.says', { name })}
          reasons={withdrawReasons.map((key) => t(key))}
          refusals={refusals}
          onBack={() => go(first)}
          onReason={(reason) => void decide({ do: 'withdraw', thing: thing.id, reason }, null)}
        />
      );
    case 'said':
      return (
        <ChoiceQuestion
          title={t('correct.said', { name })}
          choices={[{ key: 'close', label: t('correct.done'), onTake: adding ? () => go(first) : onDone }]}
        >
          <Doubts book={book} thing={thing.id} doubts={doing.doubts} />
        </ChoiceQuestion>
      );
  }
}

const unitFirst = (units: readonly string[], unit: string): readonly string[] => [
  unit,
  ...units.filter((one) => one !== unit),
];
