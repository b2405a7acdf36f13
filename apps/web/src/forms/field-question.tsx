import { type CampaignView, fieldOf, type HoleView, kindOf } from '@firnbook/campaign';
import type { ReactNode } from 'react';
import { fieldWords, nameHere } from '../texts/names.ts';
import { type TextKey, t } from '../texts/t.ts';
import { thingName } from '../texts/thing-name.ts';
import type { Ask } from './ask.ts';
import { newestOf, newestReading, nextName, saidBefore, thingsOfKind } from './at-hand.ts';
import { HeightQuestion } from './height-question.tsx';
import { LengthsQuestion } from './lengths-question.tsx';
import { NearQuestion } from './near-question.tsx';
import { NumberQuestion } from './number-question.tsx';
import { PhotographQuestion } from './photograph-question.tsx';
import { PositionQuestion } from './position-question.tsx';
import { TextQuestion } from './text-question.tsx';
import { ThingQuestion } from './thing-question.tsx';
import { TimeQuestion } from './time-question.tsx';
import { press, readingOf, type Typed, typedMetres, typedOf } from './typed.ts';
import { WindsQuestion } from './winds-question.tsx';
import { WordQuestion } from './word-question.tsx';

/** Texts said before that stand as buttons over the keyboard. */
const remembered = 4;

/** What every question of a form is asked in. */
export interface Asked {
  readonly campaign: CampaignView;
  readonly hole: HoleView | null;
  readonly kind: string;
  /** What the form holds already, by field. */
  readonly readings: Readonly<Record<string, string>>;
  readonly keepFile: (file: Blob) => Promise<string>;
}

export interface FieldQuestionProps {
  readonly asked: Asked;
  readonly ask: Ask;
  readonly title: string;
  readonly hint?: ReactNode;
  /** What is typed and not taken yet; null while nothing is. */
  readonly held: Typed | null;
  readonly onHeld: (held: Typed | null) => void;
  /** The reading, as it goes into the record. */
  readonly onTake: (text: string) => void;
  /** Leaves the field out; absent where it must be answered. */
  readonly onSkip?: (() => void) | undefined;
  /** Nothing is proposed where a reading is corrected. */
  readonly correcting?: boolean;
  readonly onBack?: (() => void) | undefined;
  readonly refusals?: readonly string[] | undefined;
}

/** One question for one field of a kind's table, whatever the field holds. */
export function FieldQuestion(props: FieldQuestionProps) {
  const { asked, ask, held, onHeld, onTake, onSkip, correcting } = props;
  const { campaign, hole, kind, readings } = asked;
  const field = fieldOf(kindOf(kind)!, ask.field);
  if (field === undefined) return null;
  const isMeasure = 'unit' in field || field.quantity === 'count';
  const skip: TextKey = ask.skip ?? (isMeasure ? 'form.not.measured' : 'form.skip');
  const plain = {
    title: props.title,
    hint: props.hint ?? (ask.hint ? t(ask.hint) : undefined),
    onBack: props.onBack,
    refusals: props.refusals,
    without: onSkip ? { label: t(skip), onTake: onSkip } : undefined,
  };
  const newest = newestReading(campaign, hole, kind, ask.field);
  const proposed = correcting ? undefined : typeof ask.propose === 'string' ? ask.propose : newest;
  const unitsHere = ask.unitsBy?.units[readings[ask.unitsBy.field] ?? ''];
  const asNumber = (units: readonly string[], signed: boolean) => {
    const usual = units[0] ?? '';
    const proposal = ask.propose && proposed ? typedOf(proposed, usual) : null;
    return (
      <NumberQuestion
        {...plain}
        typed={held ?? { text: ask.start ?? '', unit: usual }}
        onTyped={onHeld}
        units={units}
        signed={signed}
        proposed={proposal?.text ? proposal : null}
        onNext={(typed) => onTake(readingOf(typed))}
      />
    );
  };
  if (unitsHere) return asNumber(unitsHere, unitsHere.includes('°C'));
  switch (field.quantity) {
    case 'word':
      return (
        <WordQuestion
          {...plain}
          kind={kind}
          field={ask.field}
          words={field.words}
          first={ask.first}
          onTake={onTake}
        />
      );
    case 'text': {
      const before = saidBefore(campaign, hole, kind, ask.field, remembered);
      const own = ask.numbered
        ? [nextName(t(ask.numbered), saidBefore(campaign, hole, kind, ask.field, 999))]
        : [];
      const usual = (ask.usual ?? []).map((key) => t(key));
      const atHand = ask.long
        ? []
        : ask.propose || ask.numbered
          ? [...own, ...before]
          : [...usual, ...before];
      return (
        <TextQuestion
          {...plain}
          text={held?.text ?? ''}
          onText={(text) => onHeld({ text, unit: '' })}
          atHand={[...new Set([...atHand, ...usual])].slice(0, remembered + 1)}
          proposes={!correcting && (own.length > 0 || (ask.propose !== undefined && before.length > 0))}
          long={ask.long}
          most={field.most}
          onTake={onTake}
        />
      );
    }
    case 'time':
      return (
        <TimeQuestion
          {...plain}
          held={held?.text ?? ''}
          onHeld={(text) => onHeld({ text, unit: '' })}
          onTake={onTake}
        />
      );
    case 'attachment':
      return <PhotographQuestion {...plain} onKeep={asked.keepFile} onTake={onTake} />;
    case 'position':
      return (
        <PositionQuestion
          {...plain}
          held={held?.text ?? ''}
          onHeld={(text) => onHeld({ text, unit: '' })}
          like={newestReading(campaign, null, 'position', 'position')}
          onTake={onTake}
        />
      );
    case 'thing':
      return (
        <ThingQuestion
          {...plain}
          things={[field.of].flat().flatMap((one) => thingsOfKind(campaign, hole, one))}
          nameOf={(thing) => (Array.isArray(field.of) ? thingName(thing) : nameHere(thing))}
          onTake={onTake}
        />
      );
    case 'lengths':
      return (
        <LengthsQuestion
          {...plain}
          units={ask.units ?? [field.unit]}
          held={held ?? { text: '', unit: ask.units?.[0] ?? field.unit }}
          onHeld={onHeld}
          onTake={onTake}
        />
      );
    case 'count':
      return asNumber([''], false);
    default: {
      const units = ask.units ?? [field.unit];
      if (ask.height)
        return (
          <HeightQuestion
            {...plain}
            units={units}
            held={held ?? { text: '', unit: units[0]! }}
            onHeld={onHeld}
            onTake={onTake}
          />
        );
      if (ask.winds && held === null)
        return (
          <WindsQuestion {...plain} onTake={onTake} onType={() => onHeld({ text: '', unit: units[0]! })} />
        );
      const around = ask.near && held === null && !correcting ? nearest(asked, ask) : null;
      if (ask.near && around !== null)
        return (
          <NearQuestion
            {...plain}
            around={around}
            step={ask.near}
            unit={units[0]!}
            onTake={onTake}
            onType={(key) => onHeld({ text: press('', key), unit: units[0]! })}
          />
        );
      return asNumber(units, field.usual[0] < 0);
    }
  }
}

/** The newest diameter of the core in millimetres: read a moment ago, on another piece, or what the cutters leave. */
function nearest({ campaign, hole, readings }: Asked, ask: Ask): number | null {
  const texts = [
    ...Object.keys(readings)
      .filter((field) => field.startsWith('diameter') && field !== ask.field)
      .map((field) => readings[field]!)
      .reverse(),
    ...['diameterBottom', 'diameterTop'].map((field) => newestReading(campaign, hole, 'piece', field)),
    newestOf(campaign, null, 'set-up')?.readings.coreDiameter?.text,
  ];
  const text = texts.find((one) => one !== undefined && one !== '');
  const metres = text === undefined ? null : typedMetres(typedOf(text, 'mm'));
  return metres === null ? null : metres * 1000;
}

/** How a question for a field is headed: whose reading it is, then which. */
export const askTitle = (of: string, kind: string, field: string): string =>
  t('thing.ask', { of, field: fieldWords(kind, field) });
