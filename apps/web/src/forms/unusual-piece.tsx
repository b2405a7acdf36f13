import { useState } from 'react';
import { wordName } from '../texts/names.ts';
import { t } from '../texts/t.ts';
import { ChoiceQuestion } from './choice-question.tsx';
import { NumberQuestion } from './number-question.tsx';
import { readingOf, type Typed } from './typed.ts';

/** Said with one tap, taken back with another. */
const switches = [
  { key: 'order', field: 'order', word: 'unsure', label: 'unusual.order' },
  { key: 'found', field: 'found', word: 'later', label: 'unusual.found' },
  { key: 'upside', field: 'way', word: 'upside down', label: 'unusual.upside' },
  { key: 'again', field: 'brokenAgain', word: 'yes', label: 'unusual.again' },
  { key: 'crumbled', field: 'ice', word: 'crumbled', label: 'unusual.crumbled' },
] as const;

const astray = ['wall snow', 'chip plug', 'milled'] as const;

type Step = 'list' | 'ice' | 'turned' | 'mark' | 'markRun';

export interface UnusualPieceProps {
  readonly run: string;
  readonly number: number;
  readonly catchers: readonly { readonly id: string; readonly name: string }[];
  /** By field of a piece, as it goes into the record. */
  readonly unusual: Readonly<Record<string, string>>;
  readonly onUnusual: (unusual: Readonly<Record<string, string>>) => void;
  readonly onDone: () => void;
}

/** Whatever is not as it should be with a piece, each behind its own button; no free text is needed. */
export function UnusualPiece(props: UnusualPieceProps) {
  const { run, number, catchers, unusual, onUnusual, onDone } = props;
  const [step, setStep] = useState<Step>('list');
  const [typed, setTyped] = useState<Typed>({ text: '', unit: '' });
  const of = { run, number };
  const say = (field: string, text: string | undefined) => {
    const { [field]: _, ...rest } = unusual;
    onUnusual(text === undefined ? rest : { ...rest, [field]: text });
  };
  const ask = (next: Step, unit: string) => {
    setTyped({ text: '', unit });
    setStep(next);
  };
  const back = () => setStep('list');
  switch (step) {
    case 'list':
      return (
        <ChoiceQuestion
          title={t('unusual.title', of)}
          columns={2}
          choices={[
            ...switches.map(({ key, field, word, label }) => ({
              key,
              label: t(label),
              pressed: unusual[field] === word,
              hint: key === 'crumbled' ? t('unusual.crumbled.hint') : undefined,
              onTake: () => say(field, unusual[field] === word ? undefined : word),
            })),
            {
              key: 'ice',
              label: t('unusual.ice'),
              pressed: astray.some((word) => word === unusual.ice),
              hint: astray.some((word) => word === unusual.ice)
                ? wordName('piece', 'ice', unusual.ice ?? '')
                : undefined,
              onTake: () => setStep('ice'),
            },
            {
              key: 'turned',
              label: t('unusual.turned'),
              pressed: unusual.turned !== undefined,
              hint: unusual.turned,
              onTake: () => ask('turned', '°'),
            },
            {
              key: 'mark',
              label: t('unusual.mark'),
              pressed: unusual.catcherMark !== undefined,
              hint: unusual.catcherMark,
              onTake: () => ask('mark', 'mm'),
            },
          ]}
          onBack={onDone}
        >
          <div className="question-row seldom">
            <button type="button" className="act" data-choice="done" onClick={onDone}>
              {t('unusual.done')}
            </button>
          </div>
        </ChoiceQuestion>
      );
    case 'ice':
      return (
        <ChoiceQuestion
          title={t('unusual.ice.title', of)}
          choices={[
            ...astray.map((word) => ({
              key: word,
              label: wordName('piece', 'ice', word),
              onTake: () => {
                say('ice', word);
                back();
              },
            })),
            {
              key: 'in place',
              label: t('unusual.in.place'),
              onTake: () => {
                say('ice', undefined);
                back();
              },
            },
          ]}
          onBack={back}
        />
      );
    case 'turned':
      return (
        <NumberQuestion
          title={t('piece.ask.turned', of)}
          typed={typed}
          onTyped={setTyped}
          units={['°']}
          signed
          hint={t('hint.turned')}
          onNext={(angle) => {
            say('turned', readingOf(angle));
            back();
          }}
          without={{
            label: t('form.skip'),
            onTake: () => {
              say('turned', undefined);
              back();
            },
          }}
          onBack={back}
        />
      );
    case 'mark':
      return (
        <NumberQuestion
          title={t('piece.ask.mark', of)}
          typed={typed}
          onTyped={setTyped}
          units={['mm', 'cm']}
          onNext={(distance) => {
            say('catcherMark', readingOf(distance));
            setStep('markRun');
          }}
          without={{
            label: t('form.skip'),
            onTake: () => {
              const { catcherMark: _, catcherRun: __, ...rest } = unusual;
              onUnusual(rest);
              back();
            },
          }}
          onBack={back}
        />
      );
    case 'markRun':
      return (
        <ChoiceQuestion
          title={t('piece.ask.mark.run', of)}
          choices={[
            {
              key: 'own',
              label: t('piece.mark.own'),
              hint: run,
              onTake: () => {
                say('catcherRun', undefined);
                back();
              },
            },
            ...catchers.map(({ id, name }) => ({
              key: id,
              label: name,
              onTake: () => {
                say('catcherRun', id);
                back();
              },
            })),
          ]}
          onBack={() => setStep('mark')}
        />
      );
  }
}
