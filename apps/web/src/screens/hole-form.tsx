import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { ChoiceQuestion } from '../forms/choice-question.tsx';
import { ZeroForm } from '../forms/zero-form.tsx';
import { t } from '../texts/t.ts';
import { refusalLines } from './refusal-lines.ts';

const letters = ['A', 'B', 'C', 'D', 'E', 'F'] as const;

/** Open a hole: its letter, then the surface that its depths count from. */
export function HoleForm(props: {
  readonly book: BookHandle;
  readonly onDone: (letter: string) => void;
  readonly onBack?: (() => void) | undefined;
}) {
  const { book, onDone, onBack } = props;
  const [letter, setLetter] = useState<string | null>(null);
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const taken = new Set(book.campaign?.holes.map((hole) => hole.letter));
  if (letter === null)
    return (
      <div className="alone">
        <ChoiceQuestion
          title={t('hole.ask')}
          hint={t('hole.hint')}
          choices={letters
            .filter((one) => !taken.has(one))
            .map((one) => ({ key: one, label: one, onTake: () => setLetter(one) }))}
          refusals={refusals}
          onBack={onBack}
        />
      </div>
    );
  return (
    <div className="alone">
      <ZeroForm
        another={false}
        onBack={() => setLetter(null)}
        onSave={async (readings) => {
          // Kept after a refusal of the zero: the hole is not opened twice.
          const known = book.campaign?.holes.find((hole) => hole.letter === letter)?.id;
          const hole = known ?? (await book.decide({ do: 'log', kind: 'hole', readings: { letter } }));
          if (typeof hole !== 'string' && !hole.ok) {
            setRefusals(refusalLines(hole.refusals));
            setLetter(null);
            return refusalLines(hole.refusals);
          }
          const id = typeof hole === 'string' ? hole : (hole.entries[0] ?? '');
          const zero = await book.decide({ do: 'log', kind: 'zero', hole: id, readings });
          if (!zero.ok) return refusalLines(zero.refusals);
          onDone(letter);
          return [];
        }}
      />
    </div>
  );
}
