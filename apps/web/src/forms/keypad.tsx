import { t } from '../texts/t.ts';
import { Icon } from './icons.tsx';

/** The decimal sign that the reader writes; a keyboard may give either. */
const sign = new Intl.NumberFormat().formatToParts(1.5).find((part) => part.type === 'decimal')?.value ?? '.';

const keys: readonly string[] = ['7', '8', '9', '4', '5', '6', '1', '2', '3', sign, '0', 'back'];

/** Twelve big keys. They never take the focus, so a hardware keyboard goes on working in between. */
export function Keypad(props: {
  readonly onKey: (key: string) => void;
  /** Without the decimal sign. */
  readonly digitsAlone?: boolean;
}) {
  const { onKey, digitsAlone = false } = props;
  return (
    <div className={digitsAlone ? 'pad digits' : 'pad'}>
      {keys
        .filter((key) => !digitsAlone || key !== sign)
        .map((key) => (
          <button
            key={key}
            type="button"
            className="num"
            tabIndex={-1}
            aria-label={
              key === 'back' ? t('form.key.back') : key === sign ? t('form.key.decimal') : undefined
            }
            onPointerDown={(event) => event.preventDefault()}
            onClick={() => onKey(key)}
          >
            {key === 'back' ? <Icon name="back" /> : key}
          </button>
        ))}
    </div>
  );
}
