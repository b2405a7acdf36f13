import { type SyntheticEvent, useId, useState } from 'react';
import { number } from '../texts/numbers.ts';
import type { Say } from './texts.ts';

interface GoToDepthProps {
  /** Depth of the hole, metres. */
  readonly end: number;
  readonly say: Say;
  readonly onGo: (depth: number) => void;
}

/** A thumb covers metres of a whole hole; a typed depth does not. */
export function GoToDepth({ end, say, onGo }: GoToDepthProps) {
  const [typed, setTyped] = useState('');
  const [wrong, setWrong] = useState('');
  const [field, message] = [useId(), useId()];
  const go = (event: SyntheticEvent): void => {
    event.preventDefault();
    const depth = typedDepth(typed);
    if (depth === null || depth > end) {
      setWrong(say('noDepth', { typed, example: number(end / 2, 2) }));
      return;
    }
    setWrong('');
    onGo(depth);
  };
  return (
    <form className="core-axis-go" onSubmit={go} noValidate>
      <label htmlFor={field}>{say('goTo')}</label>
      <span className="core-axis-depth">
        <input
          id={field}
          inputMode="decimal"
          autoComplete="off"
          size={7}
          value={typed}
          aria-invalid={wrong !== ''}
          aria-describedby={wrong === '' ? undefined : message}
          onChange={(event) => setTyped(event.target.value)}
        />
        <span>{say('metre')}</span>
      </span>
      <button type="submit">{say('go')}</button>
      <span id={message} role="alert" className="core-axis-wrong">
        {wrong}
      </span>
    </form>
  );
}

/** Metres typed with comma or point and with or without their unit; null where it is no depth. */
export function typedDepth(typed: string): number | null {
  const digits = /^\s*(\d+(?:[.,]\d*)?|[.,]\d+)\s*m?\s*$/.exec(typed)?.[1];
  return digits === undefined ? null : Number(digits.replace(',', '.'));
}
