import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { ChoiceQuestion } from '../forms/choice-question.tsx';
import { Later } from '../forms/later.tsx';
import type { Made } from '../forms/thing-form.tsx';
import { kindName } from '../texts/names.ts';
import { t } from '../texts/t.ts';
import { refusalLines } from './refusal-lines.ts';

const letters = ['A', 'B', 'C', 'D', 'E', 'F'] as const;
const thingForm = () => import('../forms/thing-form.tsx').then(({ ThingForm }) => ThingForm);

/** Open a hole: its letter, then the surface that its depths count from. */
export function HoleForm(props: {
  readonly book: BookHandle;
  readonly onDone: (letter: string) => void;
  readonly onBack?: (() => void) | undefined;
}) {
  const { book, onDone, onBack } = props;
  const [letter, setLetter] = useState<string | null>(null);
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const { campaign } = book;
  if (campaign === null) return null;
  const taken = new Set(campaign.holes.map((hole) => hole.letter));
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
  const save = async (
    readings: Readonly<Record<string, string>>,
    seen: string | undefined,
  ): Promise<Made> => {
    // Kept after a refusal of the zero: the hole is not opened twice.
    const known = campaign.holes.find((hole) => hole.letter === letter)?.id;
    const hole = known ?? (await book.decide({ do: 'log', kind: 'hole', readings: { letter } }, seen));
    if (typeof hole !== 'string' && !hole.ok) {
      setRefusals(refusalLines(hole.refusals));
      setLetter(null);
      return { ok: false, refusals: refusalLines(hole.refusals) };
    }
    const id = typeof hole === 'string' ? hole : (hole.entries[0] ?? '');
    const zero = await book.decide({ do: 'log', kind: 'zero', hole: id, readings }, seen);
    if (!zero.ok) return { ok: false, refusals: refusalLines(zero.refusals) };
    return { ok: true, thing: zero.entries[0] ?? '', doubts: zero.doubts };
  };
  return (
    <div className="alone">
      <Later
        part={thingForm}
        campaign={campaign}
        hole={null}
        kind="zero"
        keepFile={book.keepFile}
        scope={`new ${letter}`}
        title={kindName('zero')}
        // A first zero has no other to be measured against.
        without={['height']}
        onSave={save}
        onMade={() => onDone(letter)}
        onBack={() => setLetter(null)}
      />
    </div>
  );
}
