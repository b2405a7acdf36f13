import { type ReactNode, useState } from 'react';
import { wordHint, wordName } from '../texts/names.ts';
import { t } from '../texts/t.ts';
import { ChoiceQuestion } from './choice-question.tsx';

export interface WordQuestionProps {
  readonly title: string;
  readonly hint?: ReactNode;
  readonly kind: string;
  readonly field: string;
  /** The field's words, the usual ones first. */
  readonly words: readonly string[];
  /** How many of them are shown at once; the others stand behind one more button. */
  readonly first?: number | undefined;
  readonly onTake: (word: string) => void;
  readonly without?: { readonly label: string; readonly onTake: () => void } | undefined;
  readonly onBack?: (() => void) | undefined;
  readonly refusals?: readonly string[] | undefined;
}

/** One word of a field's list, as big buttons; many short ones stand in two columns. */
export function WordQuestion(props: WordQuestionProps) {
  const { title, hint, kind, field, words, first, onTake, without, onBack, refusals } = props;
  const [others, setOthers] = useState(false);
  const cut = first !== undefined && first < words.length;
  const shown = !cut ? words : others ? words.slice(first) : words.slice(0, first);
  return (
    <ChoiceQuestion
      title={title}
      hint={hint}
      columns={shown.length > 5 ? 2 : undefined}
      choices={[
        ...shown.map((word) => ({
          key: word,
          label: wordName(kind, field, word),
          hint: wordHint(kind, field, word),
          onTake: () => onTake(word),
        })),
        ...(cut && !others
          ? [{ key: 'others', label: t('word.others'), onTake: () => setOthers(true) }]
          : []),
        ...(without ? [{ key: 'skip', label: without.label, onTake: without.onTake }] : []),
      ]}
      onBack={others ? () => setOthers(false) : onBack}
      refusals={refusals}
    />
  );
}
