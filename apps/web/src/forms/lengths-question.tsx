import type { ReactNode } from 'react';
import { t } from '../texts/t.ts';
import { NumberQuestion } from './number-question.tsx';
import type { Typed } from './typed.ts';

export interface LengthsQuestionProps {
  readonly title: string;
  readonly hint?: ReactNode;
  readonly units: readonly string[];
  /** Places so far and what is being typed, apart by ";". */
  readonly held: Typed;
  readonly onHeld: (held: Typed) => void;
  readonly onTake: (text: string) => void;
  readonly onBack?: (() => void) | undefined;
  readonly refusals?: readonly string[] | undefined;
}

/** Several places on one tape, one after the other: where the core begins, each break, where it ends. */
export function LengthsQuestion(props: LengthsQuestionProps) {
  const { title, units, held, onHeld, onTake, onBack, refusals } = props;
  const parts = held.text.split(';');
  const places = parts.slice(0, -1);
  const typed: Typed = { text: parts.at(-1) ?? '', unit: held.unit };
  const put = (all: readonly string[], unit: string) => onHeld({ text: all.join(';'), unit });
  const said = places.length > 0 ? `${places.join(' · ')} ${held.unit}` : '';
  return (
    <NumberQuestion
      title={t(places.length === 0 ? 'tape.begins' : 'tape.next', { title, count: places.length })}
      typed={typed}
      onTyped={(next) => put([...places, next.text], next.unit)}
      // One tape has one unit; it is told before the first place.
      units={places.length === 0 ? units : [held.unit]}
      hint={places.length === 0 ? (props.hint ?? t('tape.hint')) : <span className="num">{said}</span>}
      proposed={places.length === 0 ? { text: '0', unit: held.unit } : null}
      onNext={(next) => put([...places, next.text.replace(/[.,]$/, ''), ''], next.unit)}
      without={
        places.length > 1
          ? { label: t('tape.end'), onTake: () => onTake(`${places.join('; ')} ${held.unit}`) }
          : undefined
      }
      onBack={places.length === 0 ? onBack : () => put(places, held.unit)}
      refusals={refusals}
    />
  );
}
