import { useState } from 'react';
import { metres } from '../texts/numbers.ts';
import { capital } from '../texts/say-here.ts';
import { t } from '../texts/t.ts';
import { ChoiceQuestion } from './choice-question.tsx';
import { NumberQuestion } from './number-question.tsx';
import { readingOf, type Typed, typedMetres } from './typed.ts';

type Step = 'number' | 'from' | 'to' | 'recovered';

export interface RunDraft {
  readonly step: Step;
  /** Empty while the proposed number stands. */
  readonly number: string;
  readonly from: Typed;
  readonly to: Typed;
}

export const emptyRunDraft: RunDraft = {
  step: 'from',
  number: '',
  from: { text: '', unit: 'm' },
  to: { text: '', unit: 'm' },
};

/** Whether somebody has answered or typed anything yet. */
export function isBegun(draft: RunDraft): boolean {
  return draft.step !== 'from' || draft.from.text !== '';
}

export interface RunFormProps {
  readonly draft: RunDraft;
  readonly onDraft: (draft: RunDraft) => void;
  readonly nextNumber: number;
  /** The driller's depth at which the run before ended, as typed then. */
  readonly proposedFrom: { readonly typed: Typed; readonly run: string } | null;
  /** Resolves to what was wrong, or to nothing. */
  readonly onSave: (readings: Readonly<Record<string, string>>) => Promise<readonly string[]>;
}

/** The driller's run: depth from, depth to, core or nothing. One question at a time. */
export function RunForm({ draft, onDraft, nextNumber, proposedFrom, onSave }: RunFormProps) {
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const number = draft.number === '' ? String(nextNumber) : draft.number;
  const go = (change: Partial<RunDraft>) => {
    setRefusals([]);
    onDraft({ ...draft, ...change });
  };
  const save = async (recovered: 'core' | 'nothing') => {
    setRefusals(
      await onSave({
        number,
        ...(draft.from.text === '' ? {} : { from: readingOf(draft.from) }),
        ...(draft.to.text === '' ? {} : { to: readingOf(draft.to) }),
        recovered,
      }),
    );
  };
  const from = typedMetres(draft.from);
  const to = typedMetres(draft.to);
  switch (draft.step) {
    case 'number':
      return (
        <NumberQuestion
          title={t('run.ask.number')}
          typed={{ text: draft.number, unit: '' }}
          onTyped={(typed) => onDraft({ ...draft, number: typed.text.replace(/[.,].*/, '') })}
          units={['']}
          hint={t('run.hint.number', { number: nextNumber })}
          proposed={{ text: String(nextNumber), unit: '' }}
          onNext={(typed) => go({ number: typed.text, step: 'from' })}
          onBack={() => go({ number: '', step: 'from' })}
        />
      );
    case 'from':
      return (
        <>
          <NumberQuestion
            title={t('run.ask.from', { number })}
            typed={draft.from}
            onTyped={(typed) => onDraft({ ...draft, from: typed })}
            units={['m', 'cm']}
            hint={proposedFrom ? t('run.hint.from', { run: proposedFrom.run }) : t('run.hint.from.first')}
            proposed={proposedFrom?.typed ?? null}
            onNext={(typed) => go({ from: typed, step: 'to' })}
            without={{
              label: t('form.not.read'),
              onTake: () => go({ from: { ...draft.from, text: '' }, step: 'to' }),
            }}
          />
          <button type="button" className="link below" onClick={() => go({ step: 'number' })}>
            {t('run.other.number', { number })}
          </button>
        </>
      );
    case 'to':
      return (
        <NumberQuestion
          title={t('run.ask.to', { number })}
          typed={draft.to}
          onTyped={(typed) => onDraft({ ...draft, to: typed })}
          units={['m', 'cm']}
          hint={
            from !== null && to !== null && to > from
              ? t('run.hint.to.advance', { from: metres(from), advance: metres(to - from) })
              : t('run.hint.to', { from: said(draft.from) })
          }
          onNext={(typed) => go({ to: typed, step: 'recovered' })}
          without={{
            label: t('form.not.read'),
            onTake: () => go({ to: { ...draft.to, text: '' }, step: 'recovered' }),
          }}
          onBack={() => go({ step: 'from' })}
        />
      );
    case 'recovered':
      return (
        <ChoiceQuestion
          title={t('run.ask.recovered', { number })}
          hint={t('run.hint.recovered', {
            from: said(draft.from),
            to: said(draft.to),
          })}
          choices={[
            { key: 'core', label: capital(t('word.run.recovered.core')), onTake: () => void save('core') },
            {
              key: 'nothing',
              label: capital(t('word.run.recovered.nothing')),
              hint: t('run.recovered.nothing.hint'),
              onTake: () => void save('nothing'),
            },
          ]}
          refusals={refusals}
          onBack={() => go({ step: 'to' })}
        />
      );
  }
}

/** The reading in a sentence: number and unit stay on one line. */
function said(typed: Typed): string {
  return typed.text === '' ? t('list.not.read') : readingOf(typed).replace(' ', '\u00a0');
}
