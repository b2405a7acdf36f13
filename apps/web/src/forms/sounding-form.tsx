import { useState } from 'react';
import { t } from '../texts/t.ts';
import { NumberQuestion } from './number-question.tsx';
import { readingOf, type Typed } from './typed.ts';

export interface SoundingFormProps {
  /** The newest run, after which the hole is sounded: its number and its name. */
  readonly afterRun: { readonly id: string; readonly name: string };
  readonly onSave: (readings: Readonly<Record<string, string>>) => Promise<readonly string[]>;
  readonly onBack: () => void;
}

/** Depth of the hole by weighted tape: the depth, then how well it was read. */
export function SoundingForm({ afterRun, onSave, onBack }: SoundingFormProps) {
  const [depth, setDepth] = useState<Typed>({ text: '', unit: 'm' });
  const [sd, setSd] = useState<Typed>({ text: '', unit: 'cm' });
  const [step, setStep] = useState<'depth' | 'sd'>('depth');
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  if (step === 'depth')
    return (
      <NumberQuestion
        title={t('sounding.ask.depth')}
        typed={depth}
        onTyped={setDepth}
        units={['m', 'cm']}
        hint={t('sounding.hint.depth', { run: afterRun.name })}
        onNext={(typed) => {
          setDepth(typed);
          setStep('sd');
        }}
        onBack={onBack}
      />
    );
  return (
    <NumberQuestion
      title={t('sounding.ask.sd')}
      typed={sd}
      onTyped={setSd}
      units={['cm', 'm']}
      hint={t('sounding.hint.sd')}
      proposed={{ text: '2', unit: 'cm' }}
      onNext={(typed) =>
        void onSave({ afterRun: afterRun.id, depth: readingOf(depth), sd: readingOf(typed) }).then(
          setRefusals,
        )
      }
      refusals={refusals}
      onBack={() => setStep('depth')}
    />
  );
}
