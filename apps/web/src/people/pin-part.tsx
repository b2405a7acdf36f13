import '../texts/for-pin.ts';
import { pinProblem } from '@firnbook/campaign';
import { type FormEvent, useEffect, useId, useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { Keypad } from '../forms/keypad.tsx';
import { QuestionHead } from '../forms/question-head.tsx';
import { Refusals } from '../forms/refusals.tsx';
import { initialsOf } from '../screens/people.ts';
import { t } from '../texts/t.ts';
import { campPins } from './camp-pins.ts';
import { deriveApart } from './derive.ts';
import { type Ground, startPins, type Told } from './pins.ts';

export interface PinPartProps {
  readonly book: BookHandle;
  readonly person: string;
  /** They gave it, or write without where it can't be checked. */
  readonly onDone: () => void;
  readonly onBack: () => void;
}

const longest = 12;
const dot = '•';

/** One person's PIN: given, or chosen where they have none yet. Digits show as dots; keys and the pad do the same. */
export function PinPart({ book, person, onDone, onBack }: PinPartProps) {
  const id = book.campaign?.id ?? '';
  const send = useRef(book.exchangeNow);
  send.current = book.exchangeNow;
  const pins = useMemo(
    () =>
      startPins({
        campaign: id,
        camp: campPins(id),
        derive: deriveApart,
        now: Date.now,
        send: () => send.current(),
      }),
    [id],
  );
  const [ground, setGround] = useState<Ground | null>(null);
  const [typed, setTyped] = useState('');
  /** What was chosen, while it is typed once more. */
  const [chosen, setChosen] = useState<string | null>(null);
  const [says, setSays] = useState<readonly string[]>([]);
  /** Nobody can check it now. */
  const [isStuck, setStuck] = useState(false);
  const [isBusy, setBusy] = useState(false);
  const field = useRef<HTMLInputElement>(null);
  const without = useRef<HTMLButtonElement>(null);
  const ids = useId();
  const initials = book.campaign === null ? '' : initialsOf(book.campaign, person);

  useEffect(() => {
    let isOver = false;
    void pins.ground(person).then((found) => {
      if (!isOver) setGround(found);
    });
    return () => {
      isOver = true;
    };
  }, [pins, person]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: the field takes the keys at each new question.
  useLayoutEffect(() => {
    (field.current ?? without.current)?.focus({ preventScroll: true });
  }, [ground, chosen, isBusy, isStuck]);

  const type = (key: string) => {
    if (isBusy) return;
    if (key === 'back') setTyped((text) => text.slice(0, -1));
    else if (/^\d$/.test(key)) setTyped((text) => (text + key).slice(0, longest));
    setSays([]);
  };
  const again = (...lines: readonly string[]) => {
    setTyped('');
    setChosen(null);
    setSays(lines);
  };
  const hear = (told: Told) => {
    if (told.is === 'right') {
      book.writer.proven(person);
      onDone();
    } else if (told.is === 'wrong') again(t('pin.wrong'));
    else if (told.is === 'nowhere') setGround('nowhere');
    else {
      again(told.is === 'wait' ? t('pin.wait', { initials, count: told.seconds }) : told.says);
      setStuck(true);
    }
  };
  const ask = async (asked: Promise<Told>) => {
    setBusy(true);
    try {
      hear(await asked);
    } catch {
      again(t('pin.failed'));
      setStuck(true);
    }
    setBusy(false);
  };
  const take = (event: FormEvent) => {
    event.preventDefault();
    if (isBusy || ground === null || typed === '') return;
    if (ground !== 'choose') return void ask(pins.give(person, typed, ground));
    if (chosen !== null)
      return chosen === typed ? void ask(pins.choose(person, typed)) : again(t('pin.differ'));
    const problem = pinProblem(typed);
    if (problem !== null) return again(t(`pin.weak.${problem}`));
    setChosen(typed);
    setTyped('');
  };

  const title = (): string => {
    if (ground === 'choose') return t(chosen === null ? 'pin.choose' : 'pin.again', { initials });
    return t(book.writer.isPinWanted ? 'pin.wanted' : 'pin.of', { initials });
  };
  const hint = (): string => {
    if (ground === null) return t('pin.asking');
    return isBusy ? t('pin.checking') : t(`pin.hint.${ground}`);
  };
  const canAsk = ground !== 'nowhere' && !isStuck;
  return (
    <form className="question pin" onSubmit={take} aria-labelledby={`${ids}-title`} autoComplete="off">
      <QuestionHead
        id={`${ids}-title`}
        title={<label htmlFor={`${ids}-field`}>{title()}</label>}
        onBack={onBack}
      />
      {!canAsk ? null : (
        <div className="field">
          <input
            ref={field}
            id={`${ids}-field`}
            className="num"
            type="text"
            inputMode="none"
            autoComplete="off"
            spellCheck={false}
            enterKeyHint="done"
            value={dot.repeat(typed.length)}
            aria-describedby={`${ids}-count ${ids}-hint`}
            aria-invalid={says.length > 0 ? true : undefined}
            onKeyDown={(event) => {
              if (event.ctrlKey || event.metaKey || event.altKey) return;
              if (event.key === 'Enter' && event.repeat) event.preventDefault();
              if (event.key !== 'Backspace' && !/^\d$/.test(event.key)) return;
              event.preventDefault();
              type(event.key === 'Backspace' ? 'back' : event.key);
            }}
            onChange={(event) => {
              // A keyboard on the screen gives no keys: dots that are left stand for the digits before.
              const text = event.target.value;
              const left = [...text].filter((sign) => sign === dot).length;
              setTyped((typed.slice(0, left) + text.replace(/\D/g, '')).slice(0, longest));
            }}
          />
          <span className="hidden" id={`${ids}-count`}>
            {t('pin.digits', { count: typed.length })}
          </span>
        </div>
      )}
      <p className="hint" id={`${ids}-hint`} role="status">
        {says.length > 0 ? null : hint()}
      </p>
      <Refusals says={says} />
      {canAsk ? (
        <>
          <Keypad onKey={type} digitsAlone />
          <div className="question-row">
            <button type="submit" className="act" disabled={ground === null || isBusy}>
              {t(ground === 'choose' && chosen === null ? 'pin.next' : 'pin.give')}
            </button>
          </div>
        </>
      ) : (
        <div className="answers dialog-row">
          <button
            ref={without}
            type="button"
            className="act"
            onClick={() => {
              book.setMe(person);
              onDone();
            }}
          >
            {t('pin.unchecked', { initials })}
          </button>
          {isStuck ? (
            <button
              type="button"
              onClick={() => {
                setStuck(false);
                setSays([]);
              }}
            >
              {t('pin.try')}
            </button>
          ) : null}
        </div>
      )}
    </form>
  );
}
