import { type FormEvent, type KeyboardEvent, useId, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { Icon } from '../forms/icons.tsx';
import { Keypad } from '../forms/keypad.tsx';
import { QuestionHead } from '../forms/question-head.tsx';
import { press, typedNumber, unitTyped } from '../forms/typed.ts';
import { t } from '../texts/t.ts';
import { AnswerPart } from './answer-part.tsx';
import { FieldRow, type Part } from './field-row.tsx';
import { type AllTyped, type Field, fieldOf, givenBy, namesUnderMore } from './fields.ts';
import type { OpenBook } from './from-book.ts';
import { HowPart } from './how-part.tsx';
import { quantityWords } from './quantity-words.ts';
import type { Question } from './question.ts';
import { unitWords } from './unit-words.ts';
import { useAnswer } from './use-answer.ts';

interface Slot {
  readonly take: string;
  readonly part: Part;
}

/** One question: its numbers, what comes out while they are typed, and how it came about. */
export function QuestionView(props: {
  readonly question: Question;
  readonly book: OpenBook | null;
  readonly onBack: () => void;
}) {
  const { question, onBack } = props;
  const book = useBookAsOpened(props.book);
  const { relation } = question;
  const id = useId();
  const offers = useMemo(() => (book === null ? {} : question.fromBook(book)), [question, book]);
  const notes = useMemo(() => (book === null ? {} : (question.notes?.(book) ?? {})), [question, book]);
  const [allTyped, setAllTyped] = useState<AllTyped>({});
  const [choices, setChoices] = useState<Readonly<Record<string, string>>>({});
  const [isMore, setMore] = useState(false);
  const [isHow, setHow] = useState(false);
  const more = namesUnderMore(question);
  const fields = [...question.asked, ...more]
    .filter((take) => relation.takes[take]?.kind === 'number')
    .map((take) => fieldOf(question, take, allTyped[take], offers));
  const shown = isMore ? fields : fields.filter(({ take }) => question.asked.includes(take));
  const hidden = fields.filter((field) => !shown.includes(field));
  const given = givenBy(relation, fields, choices);

  const boxes = useRef(new Map<string, HTMLInputElement>());
  const answer = useRef<HTMLDivElement>(null);
  const letters = useRef('');
  const [slot, setSlot] = useState<Slot>({ take: question.asked[0]!, part: 'value' });
  /** Whether the keys are wanted: on a phone they cover what came out. */
  const [isTyping, setTyping] = useState(given.missing.length > 0);
  /** Quantities whose field was left once: what is wrong with a number is said when it is whole. */
  const [left, setLeft] = useState<readonly string[]>([]);
  const leave = (take: string) => setLeft((before) => (before.includes(take) ? before : [...before, take]));
  const { outcome, isOld } = useAnswer(question, given, isTyping);
  const problemOf = (take: string) => (left.includes(take) ? given.problems[take] : undefined);
  const active = fields.find(({ take }) => take === slot.take) ?? fields[0]!;
  const go = (take: string) => boxes.current.get(`${take} value`)?.focus();
  // What stands under "more" comes above the button: the hands go there with it.
  const [reach, setReach] = useState<string | null>(null);
  const showMore = (take: string | undefined) => {
    setMore(true);
    setReach(take ?? null);
  };
  useLayoutEffect(() => {
    if (reach === null) return;
    boxes.current.get(`${reach} value`)?.focus();
    setReach(null);
  }, [reach]);
  // On a phone the keys come with the first box that is touched, and would lie over the last one.
  useLayoutEffect(() => {
    if (isTyping) boxes.current.get(`${slot.take} ${slot.part}`)?.scrollIntoView({ block: 'nearest' });
  }, [isTyping, slot]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: once, when the question opens.
  useLayoutEffect(() => {
    const first = given.missing[0];
    if (first === undefined) answer.current?.focus({ preventScroll: true });
    else go(first);
  }, []);

  const set = (field: Field, part: Part, text: string) => {
    const before = allTyped[field.take] ?? { text: '', sd: '', unit: field.unit };
    setAllTyped({ ...allTyped, [field.take]: { ...before, [part === 'value' ? 'text' : 'sd']: text } });
  };
  const setUnit = (field: Field, unit: string) => {
    const before = allTyped[field.take] ?? { text: '', sd: '' };
    setAllTyped({ ...allTyped, [field.take]: { ...before, unit } });
  };
  const typeInto = (field: Field, part: Part, key: string) => {
    if (/^[a-z%°]$/i.test(key)) {
      letters.current += key;
      const unit = unitTyped(letters.current, field.units.map(unitWords));
      if (unit !== undefined) setUnit(field, field.units.find((code) => unitWords(code) === unit)!);
      return;
    }
    letters.current = '';
    set(
      field,
      part,
      pressed(question, field, allTyped[field.take]?.[part === 'value' ? 'text' : 'sd'], part, key),
    );
  };
  const typeHere = (key: string) => {
    typeInto(active, slot.part, key);
    boxes.current.get(`${active.take} ${slot.part}`)?.focus();
  };
  /** Digits go into the field that was typed into last, also while the answer or a button has the focus. */
  const typeAnywhere = (event: KeyboardEvent) => {
    if (event.target instanceof HTMLInputElement || event.ctrlKey || event.metaKey || event.altKey) return;
    if (!/^[\d.,-]$/.test(event.key)) return;
    event.preventDefault();
    typeHere(event.key);
  };
  const next = nextEmpty(shown, slot.take);
  const wrong = fields.find(({ take }) => given.problems[take] !== undefined);
  const step = (event: FormEvent) => {
    event.preventDefault();
    leave(slot.take);
    if (next !== undefined && given.problems[slot.take] === undefined) go(next.take);
    else if (wrong !== undefined) {
      leave(wrong.take);
      if (shown.includes(wrong)) go(wrong.take);
      else showMore(wrong.take);
    } else {
      setTyping(false);
      answer.current?.focus();
      answer.current?.scrollIntoView({ block: 'nearest' });
    }
  };

  const other = active.units[(active.units.indexOf(active.unit) + 1) % active.units.length]!;
  return (
    <form
      className={isTyping ? 'calc-question typing' : 'calc-question'}
      onSubmit={step}
      aria-labelledby={id}
      autoComplete="off"
      onKeyDown={typeAnywhere}
      data-question={question.key}
    >
      <QuestionHead id={id} title={t(`calc.${question.key}.name`)} onBack={onBack} />
      <div className="calc-in">
        {shown.map((field) => (
          <FieldRow
            key={field.take}
            field={field}
            label={quantityWords(relation, 'take', field.take)}
            note={notes[field.take]}
            problem={problemOf(field.take)}
            hold={(part, box) => {
              if (box === null) boxes.current.delete(`${field.take} ${part}`);
              else boxes.current.set(`${field.take} ${part}`, box);
            }}
            onKey={(part, key) => typeInto(field, part, key)}
            onText={(part, text) => set(field, part, text)}
            onFocus={(part) => {
              letters.current = '';
              setSlot({ take: field.take, part });
              setTyping(true);
            }}
            onLeave={() => leave(field.take)}
          />
        ))}
        {isMore ? <Choices question={question} choices={choices} onChoice={setChoices} /> : null}
      </div>
      <div className="calc-out">
        <AnswerPart
          question={question}
          outcome={outcome}
          isOld={isOld}
          missing={given.missing}
          isWrong={fields.some(({ take }) => problemOf(take) !== undefined)}
          hold={answer}
        />
        {question.caution === undefined ? null : (
          <div className="calc-caution">
            <p>
              <Icon name="warn" /> {t(question.caution)}
            </p>
            <p className="small">{t('caution.not.instead')}</p>
          </div>
        )}
        <div className="answers calc-row">
          <button type="button" aria-expanded={isHow} onClick={() => setHow(!isHow)}>
            {t('calc.how')}
          </button>
          {more.length > 0 ? (
            <button
              type="button"
              aria-expanded={isMore}
              onClick={() => (isMore ? setMore(false) : showMore(hidden[0]?.take))}
            >
              {t(isMore ? 'calc.less' : 'calc.more', { count: more.length })}
            </button>
          ) : null}
        </div>
        {isHow ? (
          <HowPart
            question={question}
            fields={fields}
            worked={outcome.state === 'worked' ? outcome.worked : null}
          />
        ) : null}
      </div>
      <div className="calc-keys">
        <p className="calc-into">
          {t(slot.part === 'sd' ? 'calc.sd.of' : 'calc.into', {
            quantity: quantityWords(relation, 'take', active.take),
          })}
        </p>
        <Keypad onKey={typeHere} />
        <div className="question-row">
          {active.signed && slot.part === 'value' ? (
            <button
              type="button"
              className="num"
              tabIndex={-1}
              aria-label={t(active.text.startsWith('-') ? 'form.sign.below' : 'form.sign.above')}
              onPointerDown={(event) => event.preventDefault()}
              onClick={() => typeHere('-')}
            >
              +/−
            </button>
          ) : null}
          {other !== active.unit ? (
            <button
              type="button"
              tabIndex={-1}
              onPointerDown={(event) => event.preventDefault()}
              onClick={() => setUnit(active, other)}
            >
              <span className="hidden">{t('form.unit.is')} </span>
              {unitWords(active.unit)} <Icon name="right" />
              <span className="hidden">{t('form.unit.to')}</span> {unitWords(other)}
            </button>
          ) : null}
          <button type="submit" className="act" onPointerDown={(event) => event.preventDefault()}>
            {next === undefined ? t('calc.to.answer') : t('form.next')}
          </button>
        </div>
      </div>
    </form>
  );
}

/**
 * The book as it was when the question was opened: a piece that somebody else logs meanwhile must not take the place of
 * the one whose mass is being typed. What was still being computed then is taken when it comes.
 */
function useBookAsOpened(book: OpenBook | null): OpenBook | null {
  const [opened] = useState(book);
  const depths = useFirst(book?.depths ?? null);
  const density = useFirst(book?.density ?? null);
  return useMemo(() => (opened === null ? null : { ...opened, depths, density }), [opened, depths, density]);
}

/** The first that came. */
function useFirst<T>(value: T | null): T | null {
  const [first, setFirst] = useState(value);
  if (first === null && value !== null) setFirst(value);
  return first ?? value;
}

/** The text after one key; the first key takes the place of what was offered. */
function pressed(
  question: Question,
  field: Field,
  typed: string | undefined,
  part: Part,
  key: string,
): string {
  if (part === 'sd') return press(typed ?? '', key);
  const signed = { signed: field.signed };
  if (/\d/.test(typed ?? '') || key === 'back') return press(typed ?? '', key, signed);
  // The sign of what was offered is turned, and its digits stay.
  if (key === '-' && typedNumber(field.text) !== null) return press(field.text, key, signed);
  return press(typed || (question.camp[field.take]?.start ?? ''), key, signed);
}

/** The next field without a number, below this one first; undefined where every one has its number. */
function nextEmpty(fields: readonly Field[], take: string): Field | undefined {
  const at = fields.findIndex((field) => field.take === take);
  return [...fields.slice(at + 1), ...fields.slice(0, at + 1)].find(({ text }) => typedNumber(text) === null);
}

/** Published variants, the relation's usual one first. */
function Choices(props: {
  readonly question: Question;
  readonly choices: Readonly<Record<string, string>>;
  readonly onChoice: (choices: Readonly<Record<string, string>>) => void;
}) {
  const { question, choices, onChoice } = props;
  return Object.entries(question.relation.takes).map(([name, taken]) => {
    if (taken.kind !== 'choice') return null;
    const taking = choices[name] ?? taken.options[0];
    return (
      <fieldset key={name} className="calc-choice">
        <legend>{quantityWords(question.relation, 'take', name)}</legend>
        {taken.options.map((option) => (
          <button
            key={option}
            type="button"
            aria-pressed={option === taking}
            onClick={() => onChoice({ ...choices, [name]: option })}
          >
            {option}
          </button>
        ))}
      </fieldset>
    );
  });
}
