import { type ReactNode, useEffect, useState } from 'react';
import { observedNow } from '../device/observed.ts';
import { moment } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { ChoiceQuestion } from './choice-question.tsx';

const minute = 60_000;
const steps = [
  { key: 'minutes', by: -5 * minute },
  { key: 'hour', by: -60 * minute },
  { key: 'day', by: -1440 * minute },
  { key: 'minutes.later', by: 5 * minute },
] as const;

export interface TimeQuestionProps {
  readonly title: string;
  readonly hint?: ReactNode;
  /** ISO 8601 with offset; now where it is empty. */
  readonly held: string;
  readonly onHeld: (iso: string) => void;
  readonly onTake: (iso: string) => void;
  readonly without?: { readonly label: string; readonly onTake: () => void } | undefined;
  readonly onBack?: (() => void) | undefined;
  readonly refusals?: readonly string[] | undefined;
}

/** When it was: now with one tap, earlier by steps. No clock has to be set and nothing typed. */
export function TimeQuestion(props: TimeQuestionProps) {
  const { title, hint, held, onHeld, onTake, without, onBack, refusals } = props;
  const now = useNow();
  const at = held === '' ? observedNow(new Date(now)) : held;
  const moved = (by: number) => observedNow(new Date(Math.min(now, Date.parse(at) + by)));
  return (
    <ChoiceQuestion
      title={title}
      hint={
        <>
          <b className="num moment">{moment(at)}</b>
          {hint}
        </>
      }
      columns={2}
      choices={[
        {
          key: 'take',
          usual: true,
          label: t(held === '' ? 'time.now' : 'time.then'),
          onTake: () => onTake(at),
        },
        ...(without ? [{ key: 'skip', label: without.label, onTake: without.onTake }] : []),
        ...steps.map(({ key, by }) => ({
          key,
          label: t(`time.${key}`),
          onTake: () => onHeld(moved(by)),
        })),
      ]}
      onBack={onBack}
      refusals={refusals}
    />
  );
}

/** The present minute; the screen is not drawn anew more often. */
function useNow(): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), minute);
    return () => clearInterval(timer);
  }, []);
  return now;
}
