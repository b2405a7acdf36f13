import { useId } from 'react';
import { typedFrom } from '../forms/typed.ts';
import { t } from '../texts/t.ts';
import type { Field } from './fields.ts';
import { unitWords } from './unit-words.ts';

/** One of the two numbers of a field. */
export type Part = 'value' | 'sd';

export interface FieldRowProps {
  readonly field: Field;
  readonly label: string;
  /** What the book says in words. */
  readonly note: string | undefined;
  readonly problem: string | undefined;
  /** Takes the box of a number, so that Next can lead to it. */
  readonly hold: (part: Part, box: HTMLInputElement | null) => void;
  readonly onKey: (part: Part, key: string) => void;
  readonly onText: (part: Part, text: string) => void;
  readonly onFocus: (part: Part) => void;
  readonly onLeave: () => void;
}

/** A quantity with its unit, its tolerance, and where both come from. Keys come from a pad or a keyboard. */
export function FieldRow(props: FieldRowProps) {
  const { field, label, note, problem } = props;
  const id = useId();
  const unit = unitWords(field.unit);
  const isProposed = field.from !== 'typed' && field.from !== 'nothing';
  const box = (part: Part) =>
    ({
      ref: (held: HTMLInputElement | null) => props.hold(part, held),
      className: 'num',
      type: 'text',
      inputMode: 'none',
      autoComplete: 'off',
      autoCorrect: 'off',
      spellCheck: false,
      enterKeyHint: 'next',
      onFocus: () => props.onFocus(part),
      onBlur: props.onLeave,
      onKeyDown: (event: React.KeyboardEvent<HTMLInputElement>) => {
        if (event.ctrlKey || event.metaKey || event.altKey) return;
        if (event.key === 'Enter' && event.repeat) event.preventDefault();
        if (event.key === 'Backspace' || /^[\d.,a-z%°-]$/i.test(event.key)) {
          event.preventDefault();
          props.onKey(part, event.key === 'Backspace' ? 'back' : event.key);
        }
      },
      onChange: (event: React.ChangeEvent<HTMLInputElement>) =>
        props.onText(part, typedFrom(event.target.value, { signed: part === 'value' && field.signed })),
    }) as const;
  return (
    <div className="calc-field" data-take={field.take}>
      <label htmlFor={`${id}-value`}>{label}</label>
      <div className="calc-boxes">
        <div className={`field${isProposed ? ' proposed' : ''}${unit.length > longest ? ' long-unit' : ''}`}>
          <input
            {...box('value')}
            id={`${id}-value`}
            value={field.text}
            aria-describedby={`${id}-unit ${id}-from ${id}-problem`}
            aria-invalid={problem === undefined ? undefined : true}
          />
          <span className="num unit" id={`${id}-unit`}>
            {unit}
          </span>
        </div>
        <div className="field calc-sd">
          <span className="num plus-minus" aria-hidden="true">
            ±
          </span>
          <input
            {...box('sd')}
            value={field.sd}
            aria-label={t('calc.sd.of', { quantity: label })}
            aria-describedby={`${id}-unit`}
          />
          {unit.length > longest ? null : (
            <span className="num unit" aria-hidden="true">
              {unit}
            </span>
          )}
        </div>
      </div>
      <p className="calc-from" id={`${id}-from`}>
        {field.says ?? note ?? fromWords(field)}
      </p>
      <div role="alert" id={`${id}-problem`}>
        {problem === undefined ? null : <p className="call calc-problem">{problem}</p>}
      </div>
    </div>
  );
}

/** A longer unit stands beside the value alone; the tolerance has no room for it. */
const longest = 6;

const fromWords = ({ from }: Field): string =>
  from === 'usual' || from === 'guess' ? t(`calc.from.${from}`) : '';
