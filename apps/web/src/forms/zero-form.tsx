import { type FormEvent, useId, useState } from 'react';
import { t } from '../texts/t.ts';
import { ChoiceQuestion } from './choice-question.tsx';
import { NumberQuestion } from './number-question.tsx';
import { readingOf, type Typed } from './typed.ts';

const surfaces = [
  'zero.surface.snow',
  'zero.surface.casing',
  'zero.surface.board',
  'zero.surface.pit',
] as const;

export interface ZeroFormProps {
  /** Whether the hole has a zero already, against which this one is measured. */
  readonly another: boolean;
  readonly onSave: (readings: Readonly<Record<string, string>>) => Promise<readonly string[]>;
  readonly onBack?: () => void;
}

type Step = 'surface' | 'against' | 'height';

/** The dated surface that depths count from: one tap for the usual ones, own words for any other. */
export function ZeroForm({ another, onSave, onBack }: ZeroFormProps) {
  const [step, setStep] = useState<Step>('surface');
  const [surface, setSurface] = useState('');
  const [own, setOwn] = useState('');
  const [sign, setSign] = useState<'' | '-'>('');
  const [height, setHeight] = useState<Typed>({ text: '', unit: 'cm' });
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const id = useId();
  const save = async (readings: Readonly<Record<string, string>>) => setRefusals(await onSave(readings));
  const take = (words: string) => {
    setSurface(words);
    if (another) setStep('against');
    else void save({ surface: words });
  };
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (own.trim() !== '') take(own.trim());
  };
  const measure = (which: '' | '-') => {
    setSign(which);
    setStep('height');
  };
  switch (step) {
    case 'surface':
      return (
        <ChoiceQuestion
          title={t('zero.ask')}
          hint={t('zero.hint')}
          choices={surfaces.map((key) => ({ key, label: t(key), onTake: () => take(t(key)) }))}
          refusals={refusals}
          onBack={onBack}
        >
          <form className="words note" onSubmit={send}>
            <label htmlFor={id}>{t('zero.own')}</label>
            <div className="beside">
              <input id={id} value={own} maxLength={120} onChange={(event) => setOwn(event.target.value)} />
              <button type="submit" disabled={own.trim() === ''}>
                {t('form.save')}
              </button>
            </div>
          </form>
        </ChoiceQuestion>
      );
    case 'against':
      return (
        <ChoiceQuestion
          title={t('zero.ask.against')}
          hint={surface}
          choices={[
            { key: 'higher', label: t('zero.higher'), onTake: () => measure('') },
            { key: 'lower', label: t('zero.lower'), onTake: () => measure('-') },
            { key: 'level', label: t('zero.level'), onTake: () => void save({ surface, height: '0 cm' }) },
            { key: 'unknown', label: t('zero.not.measured'), onTake: () => void save({ surface }) },
          ]}
          refusals={refusals}
          onBack={() => setStep('surface')}
        />
      );
    case 'height':
      return (
        <NumberQuestion
          title={sign === '-' ? t('zero.ask.lower') : t('zero.ask.higher')}
          typed={height}
          onTyped={setHeight}
          units={['cm', 'm']}
          hint={surface}
          onNext={(typed) => void save({ surface, height: `${sign}${readingOf(typed)}` })}
          refusals={refusals}
          onBack={() => setStep('against')}
        />
      );
  }
}
