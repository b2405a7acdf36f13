import { type Command, type Doubt, findThing, type ThingView } from '@firnbook/campaign';
import { type FormEvent, useId, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { ChoiceQuestion } from '../forms/choice-question.tsx';
import { Dialog } from '../forms/dialog.tsx';
import { NumberQuestion } from '../forms/number-question.tsx';
import { Refusals } from '../forms/refusals.tsx';
import { readingOf, type Typed, typedNumber, typedOf } from '../forms/typed.ts';
import { t } from '../texts/t.ts';
import { Doubts } from './doubts.tsx';
import { type FieldForm, fieldsOf } from './fields.ts';
import { readingFace, readingWords } from './reading-text.tsx';
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

type Doing =
  | { readonly is: 'pick' }
  | { readonly is: 'said'; readonly doubts: readonly Doubt[] }
  | { readonly is: 'value'; readonly form: FieldForm }
  | Reasoned;
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
    if (taken.ok && taken.doubts.length > 0) setDoing({ is: 'said', doubts: taken.doubts });
    else if (taken.ok) onClose();
    else setRefusals(refusalLines(taken.refusals));
  };
  const back = () => {
    setRefusals([]);
    setDoing({ is: 'pick' });
  };
  const before = (form: FieldForm) => thing.readings[form.field]?.text ?? '';
  const words = (form: FieldForm, text: string) =>
    text === '' ? t('correct.none') : readingWords(thing.kind, form.field, text, book.campaign ?? undefined);

  return (
    <Dialog title={t('correct.title', { name: thing.name })} onClose={onClose}>
      {doing.is === 'pick' ? (
        <ChoiceQuestion
          title={t('correct.which')}
          choices={[
            ...forms.map((form) => ({
              key: form.field,
              label: t(form.label),
              hint: words(form, before(form)),
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
          book={book}
          thing={thing}
          form={doing.form}
          before={before(doing.form)}
          says={words(doing.form, before(doing.form))}
          onTake={(text) => setDoing({ is: 'why', form: doing.form, text })}
          onBack={back}
        />
      ) : null}
      {doing.is === 'why' ? (
        <Why
          says={
            <>
              {t(doing.form.label)}:{' '}
              <s className={readingFace(thing.kind, doing.form.field)}>
                {words(doing.form, before(doing.form))}
              </s>{' '}
              <span className={`${readingFace(thing.kind, doing.form.field)} strong`}>
                {words(doing.form, doing.text)}
              </span>
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
      {doing.is === 'said' ? (
        <ChoiceQuestion
          title={t('correct.said', { name: thing.name })}
          choices={[{ key: 'close', label: t('correct.done'), onTake: onClose }]}
        >
          <Doubts book={book} thing={thing.id} doubts={doing.doubts} />
        </ChoiceQuestion>
      ) : null}
    </Dialog>
  );
}

interface NewValueProps {
  readonly book: BookHandle;
  readonly thing: ThingView;
  readonly form: FieldForm;
  /** As it stands in the record; empty where there is none. */
  readonly before: string;
  /** The same in the crew's words. */
  readonly says: string;
  readonly onTake: (text: string) => void;
  readonly onBack: () => void;
}

function NewValue(props: NewValueProps) {
  const { form, before, says, onTake, onBack } = props;
  const title = t('correct.new', { field: t(form.label) });
  const [typed, setTyped] = useState<Typed>({ text: '', unit: typedOf(before, form.units[0] ?? '').unit });
  const hint = before === '' ? t('correct.none') : t('correct.before', { text: says });
  if (form.is === 'words') return <NewWords {...props} title={title} hint={hint} />;
  if (form.is === 'height') return <NewHeight {...props} title={title} hint={hint} />;
  if (form.is === 'run') return <NewRun {...props} title={title} hint={hint} />;
  if (form.choices)
    return (
      <ChoiceQuestion
        title={title}
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
      title={title}
      typed={typed}
      onTyped={setTyped}
      units={form.units}
      hint={hint}
      onNext={(value) => onTake(readingOf(value))}
      onBack={onBack}
    />
  );
}

type NewProps = NewValueProps & { readonly title: string; readonly hint: string };

function NewWords({ before, title, hint, onTake, onBack }: NewProps) {
  const [own, setOwn] = useState(before);
  const id = useId();
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (own.trim() !== '') onTake(own.trim());
  };
  return (
    <form className="words" onSubmit={send}>
      <label htmlFor={id}>{title}</label>
      <p className="hint">{hint}</p>
      <input id={id} value={own} maxLength={120} onChange={(event) => setOwn(event.target.value)} />
      <div className="answers dialog-row">
        <button type="button" onClick={onBack}>
          {t('form.back')}
        </button>
        <button type="submit" className="act" disabled={own.trim() === ''}>
          {t('form.next')}
        </button>
      </div>
    </form>
  );
}

/** Higher or lower first: no key for a minus is needed. */
function NewHeight({ form, title, hint, onTake, onBack }: NewProps) {
  const [sign, setSign] = useState<'' | '-' | null>(null);
  const [typed, setTyped] = useState<Typed>({ text: '', unit: form.units[0] ?? '' });
  if (sign === null)
    return (
      <ChoiceQuestion
        title={title}
        hint={hint}
        choices={[
          { key: 'higher', label: t('zero.higher'), onTake: () => setSign('') },
          { key: 'lower', label: t('zero.lower'), onTake: () => setSign('-') },
          { key: 'level', label: t('zero.level'), onTake: () => onTake('0 cm') },
        ]}
        onBack={onBack}
      />
    );
  return (
    <NumberQuestion
      title={sign === '-' ? t('zero.ask.lower') : t('zero.ask.higher')}
      typed={typed}
      onTyped={setTyped}
      units={form.units}
      hint={hint}
      onNext={(value) => onTake(`${sign}${readingOf(value)}`)}
      onBack={() => setSign(null)}
    />
  );
}

function NewRun({ book, thing, title, hint, onTake, onBack }: NewProps) {
  const [typed, setTyped] = useState<Typed>({ text: '', unit: '' });
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const hole = book.campaign ? findThing(book.campaign, thing.id)?.hole : null;
  return (
    <NumberQuestion
      title={title}
      typed={typed}
      onTyped={setTyped}
      units={['']}
      hint={hint}
      onNext={(value) => {
        const run = hole?.runs.find(
          (one) => one.withdrawn === null && one.number === typedNumber(value.text),
        );
        if (run) onTake(run.id);
        else setRefusals([t('correct.no.run', { number: value.text })]);
      }}
      refusals={refusals}
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
