import type { Command, ThingView } from '@firnbook/campaign';
import { type FormEvent, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { ChoiceQuestion } from '../forms/choice-question.tsx';
import { Dialog } from '../forms/dialog.tsx';
import { NumberQuestion } from '../forms/number-question.tsx';
import { Refusals } from '../forms/refusals.tsx';
import { readingOf, type Typed, typedOf } from '../forms/typed.ts';
import { t } from '../texts/t.ts';
import { type FieldForm, fieldsOf } from './fields.ts';
import { readingWords } from './reading-text.tsx';
import { refusalLines } from './refusal-lines.ts';

const reasons = ['reason.again', 'reason.slip', 'reason.unit', 'reason.wrong.thing'] as const;
const withdrawReasons = ['reason.twice', 'reason.not.here', 'reason.test'] as const;

export interface CorrectDialogProps {
  readonly book: BookHandle;
  readonly thing: ThingView;
  /** The reading that the person pointed at; without it the dialog asks which. */
  readonly field?: string | undefined;
  readonly onClose: () => void;
}

type Doing = { readonly is: 'pick' } | { readonly is: 'value'; readonly form: FieldForm } | Reasoned;
type Reasoned =
  | { readonly is: 'why'; readonly form: FieldForm; readonly text: string }
  | { readonly is: 'withdraw' };

/** A new reading beside the old one, with its reason; nothing is overwritten. */
export function CorrectDialog({ book, thing, field, onClose }: CorrectDialogProps) {
  const forms = fieldsOf(thing.kind);
  const asked = forms.find((form) => form.field === field);
  const [doing, setDoing] = useState<Doing>(asked ? { is: 'value', form: asked } : { is: 'pick' });
  const [refusals, setRefusals] = useState<readonly string[]>([]);

  const decide = async (command: Command) => {
    const taken = await book.decide(command);
    if (taken.ok) onClose();
    else setRefusals(refusalLines(taken.refusals));
  };
  const back = () => {
    setRefusals([]);
    setDoing({ is: 'pick' });
  };
  const before = (form: FieldForm) => thing.readings[form.field]?.text ?? '';

  return (
    <Dialog title={t('correct.title', { name: thing.name })} onClose={onClose}>
      {doing.is === 'pick' ? (
        <ChoiceQuestion
          title={t('correct.which')}
          choices={[
            ...forms.map((form) => ({
              key: form.field,
              label: t(form.label),
              hint:
                before(form) === '' ? t('correct.none') : readingWords(thing.kind, form.field, before(form)),
              onTake: () => setDoing({ is: 'value', form }),
            })),
            {
              key: 'withdraw',
              label: t('correct.withdraw', { name: thing.name }),
              hint: t('correct.withdraw.hint'),
              onTake: () => setDoing({ is: 'withdraw' }),
            },
          ]}
        />
      ) : null}
      {doing.is === 'value' ? (
        <NewValue
          thing={thing}
          form={doing.form}
          before={before(doing.form)}
          onTake={(text) => setDoing({ is: 'why', form: doing.form, text })}
          onBack={back}
        />
      ) : null}
      {doing.is === 'why' ? (
        <Why
          says={
            <>
              {t(doing.form.label)}:{' '}
              <s className="num">{readingWords(thing.kind, doing.form.field, before(doing.form))}</s>{' '}
              <span className="num strong">{readingWords(thing.kind, doing.form.field, doing.text)}</span>
            </>
          }
          reasons={reasons.map((key) => t(key))}
          refusals={refusals}
          onBack={back}
          onReason={(reason) =>
            void decide({
              do: 'correct',
              thing: thing.id,
              readings: { [doing.form.field]: doing.text },
              reason,
            })
          }
        />
      ) : null}
      {doing.is === 'withdraw' ? (
        <Why
          says={t('correct.withdraw.says', { name: thing.name })}
          reasons={withdrawReasons.map((key) => t(key))}
          refusals={refusals}
          onBack={back}
          onReason={(reason) => void decide({ do: 'withdraw', thing: thing.id, reason })}
        />
      ) : null}
    </Dialog>
  );
}

function NewValue(props: {
  readonly thing: ThingView;
  readonly form: FieldForm;
  readonly before: string;
  readonly onTake: (text: string) => void;
  readonly onBack: () => void;
}) {
  const { thing, form, before, onTake, onBack } = props;
  const [typed, setTyped] = useState<Typed>({ text: '', unit: typedOf(before, form.units[0] ?? '').unit });
  const hint =
    before === ''
      ? t('correct.none')
      : t('correct.before', { text: readingWords(thing.kind, form.field, before) });
  if (form.choices)
    return (
      <ChoiceQuestion
        title={t('correct.new', { field: t(form.label) })}
        hint={hint}
        choices={form.choices.map((choice) => ({
          key: choice.value,
          label: t(choice.label),
          onTake: () => onTake(choice.value),
        }))}
        onBack={onBack}
      />
    );
  return (
    <NumberQuestion
      title={t('correct.new', { field: t(form.label) })}
      typed={typed}
      onTyped={setTyped}
      units={form.units}
      hint={hint}
      onNext={(value) => onTake(readingOf(value))}
      onBack={onBack}
    />
  );
}

function Why(props: {
  readonly says: React.ReactNode;
  readonly reasons: readonly string[];
  readonly refusals: readonly string[];
  readonly onReason: (reason: string) => void;
  readonly onBack: () => void;
}) {
  const [own, setOwn] = useState('');
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (own.trim() !== '') props.onReason(own.trim());
  };
  return (
    <ChoiceQuestion
      title={t('correct.why')}
      hint={<span className="change">{props.says}</span>}
      choices={props.reasons.map((reason) => ({
        key: reason,
        label: reason,
        onTake: () => props.onReason(reason),
      }))}
      onBack={props.onBack}
    >
      <form className="words note" onSubmit={send}>
        <label htmlFor="own-reason">{t('correct.own')}</label>
        <div className="beside">
          <input
            id="own-reason"
            value={own}
            maxLength={200}
            onChange={(event) => setOwn(event.target.value)}
          />
          <button type="submit" disabled={own.trim() === ''}>
            {t('correct.save')}
          </button>
        </div>
      </form>
      <Refusals says={props.refusals} />
    </ChoiceQuestion>
  );
}
