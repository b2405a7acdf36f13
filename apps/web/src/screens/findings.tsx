import { type Command, type DepthView, type HoleView, type ThingView, thingsOf } from '@firnbook/campaign';
import type { Finding, Slip } from '@firnbook/science/depth';
import { useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { Icon } from '../forms/icons.tsx';
import { Refusals } from '../forms/refusals.tsx';
import { number, shortLength } from '../texts/numbers.ts';
import { type TextKey, t } from '../texts/t.ts';
import { CorrectDialog } from './correct-dialog.tsx';
import { fieldOf } from './fields.ts';
import { useLeftStanding } from './left-standing.ts';
import type { Place } from './place.ts';
import { readingWords } from './reading-text.tsx';
import { refusalLines } from './refusal-lines.ts';

const slipTexts: Readonly<Record<Slip, TextKey>> = {
  '10 cm': 'slip.10cm',
  '1 m': 'slip.1m',
  'swapped digits': 'slip.swapped',
  'missing piece': 'slip.missing',
  'doubled piece': 'slip.doubled',
  'zero changed': 'slip.zero',
  'lost ice not logged': 'slip.lost',
  'no known slip': 'slip.none',
};

/** More questions at once would bury the list that they stand above. */
const atOnce = 2;

export interface FindingsProps {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly depths: DepthView | undefined;
  /** Only findings on these things; on the whole hole where it is left out. */
  readonly things?: readonly string[];
  /** Things whose findings stand elsewhere on the screen. */
  readonly elsewhere?: readonly string[];
  /** Fields of one thing that are asked about already. */
  readonly except?: { readonly thing: string; readonly fields: readonly string[] };
  /** Leads to the ice that a question is about. */
  readonly onShow?: (thing: string) => void;
}

/** What the solved depths cannot make fit, as questions with their answers; the newest ice first. */
export function Findings(props: FindingsProps) {
  const { book, hole } = props;
  const left = useLeftStanding(hole.id);
  const [all, setAll] = useState(false);
  const [correcting, setCorrecting] = useState<{ readonly thing: ThingView; readonly field?: string } | null>(
    null,
  );
  const found = foundIn(props);
  const open = found.filter((one) => !left.has(one.key));
  const answered = found.length - open.length;
  return (
    <>
      {open.slice(0, all ? open.length : atOnce).map((one) => (
        <FindingQuestion
          key={one.key}
          book={book}
          finding={one.finding}
          thing={one.thing}
          onShow={props.onShow}
          onLeave={() => left.leave(one.key)}
          onMeasure={(field) => setCorrecting({ thing: one.thing, ...(field ? { field } : {}) })}
        />
      ))}
      {open.length > atOnce && !all ? (
        <button type="button" className="link" onClick={() => setAll(true)}>
          {t('finding.all', { count: open.length })}
        </button>
      ) : null}
      {answered > 0 ? (
        <p className="small quiet left-standing">
          {t('finding.left', { count: answered })}{' '}
          <button type="button" className="link" onClick={left.askAgain}>
            {t('finding.ask.again')}
          </button>
        </p>
      ) : null}
      {correcting ? (
        <CorrectDialog
          book={book}
          thing={correcting.thing}
          field={correcting.field}
          onClose={() => setCorrecting(null)}
        />
      ) : null}
    </>
  );
}

/** Where the questions stand out of sight, below a form or the core: says that there are some, and leads there. */
export function FindingsPointer(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly place: Place;
}) {
  const { book, hole, place } = props;
  const left = useLeftStanding(hole.id);
  const open = foundIn({ book, hole, depths: book.depths[hole.id] }).filter((one) => !left.has(one.key));
  if (open.length === 0) return null;
  return (
    <button
      type="button"
      className={`pointer ${place}`}
      aria-label={t('finding.pointer', { count: open.length })}
      onClick={() => {
        const first = document.querySelector<HTMLElement>('[data-finding]');
        first?.scrollIntoView({ block: 'center' });
        first?.querySelector('button')?.focus({ preventScroll: true });
      }}
    >
      <Icon name="warn" /> {t('finding.pointer.short', { count: open.length })}
    </button>
  );
}

interface Found {
  readonly key: string;
  readonly finding: Finding;
  readonly thing: ThingView;
}

function foundIn({
  hole,
  depths,
  things,
  elsewhere,
  except,
}: Omit<FindingsProps, 'book'> & { readonly book?: BookHandle }): readonly Found[] {
  const known = thingsOf(hole);
  const found = (depths?.findings ?? []).flatMap((finding): readonly Found[] => {
    const at = known.findIndex((one) => one.id === finding.which);
    const thing = known[at];
    if (!thing || thing.withdrawn) return [];
    if (things !== undefined && !things.includes(thing.id)) return [];
    if (elsewhere?.includes(thing.id)) return [];
    if (thing.id === except?.thing && except.fields.includes(finding.field)) return [];
    // Answered only while the reading stays the one that was judged.
    const entry = thing.readings[finding.field]?.entry ?? '';
    return [{ key: `${finding.which} ${finding.field} ${entry}`, finding, thing }];
  });
  const place = new Map(known.map((thing, index) => [thing.id, index]));
  return found.sort((a, b) => (place.get(b.thing.id) ?? 0) - (place.get(a.thing.id) ?? 0));
}

function FindingQuestion(
  props: Omit<Found, 'key'> & {
    readonly book: BookHandle;
    readonly onShow?: ((thing: string) => void) | undefined;
    readonly onLeave: () => void;
    readonly onMeasure: (field: string | undefined) => void;
  },
) {
  const { book, finding, thing, onShow, onLeave, onMeasure } = props;
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const field = fieldOf(finding.what, finding.field);
  const reading = thing.readings[finding.field];
  const size = shortLength(Math.abs(finding.size));
  const isGap = finding.field === 'topBreak';
  const take = (command: Command) =>
    void book.decide(command).then((taken) => setRefusals(taken.ok ? [] : refusalLines(taken.refusals)));
  const correct = (readings: Readonly<Record<string, string>>) =>
    take({ do: 'correct', thing: thing.id, readings, reason: t('reason.looked.again') });
  const suggested = suggestion(finding, reading?.text ?? '');
  return (
    <section className="ask" data-finding={finding.field}>
      <h2>{t('finding.title')}</h2>
      <p>
        {isGap
          ? t('finding.gap', { name: thing.name, size })
          : t(finding.size > 0 ? 'finding.long' : 'finding.short', {
              name: thing.name,
              field: (field ? t(field.label) : finding.field).toLowerCase(),
              text: readingWords(thing.kind, finding.field, reading?.text ?? ''),
              size,
            })}{' '}
        {t(slipTexts[finding.likely])}
      </p>
      <Refusals says={refusals} />
      <div className="answers">
        {suggested !== null ? (
          <button type="button" className="act" onClick={() => correct({ [finding.field]: suggested })}>
            {t('finding.take', { text: suggested.replace(' ', '\u00a0') })}
          </button>
        ) : null}
        {isGap ? (
          <button
            type="button"
            className="act"
            onClick={() =>
              correct({ topBreak: 'loss', loss: `${number(Math.abs(finding.size) * 100, 1, 'en')} cm` })
            }
          >
            {t('finding.lost', { size })}
          </button>
        ) : null}
        <button
          type="button"
          onClick={() => onMeasure(finding.likely === 'doubled piece' ? undefined : field?.field)}
        >
          {isGap || finding.likely === 'doubled piece'
            ? t('answer.correct', { name: thing.name })
            : t('finding.measure')}
        </button>
        <button type="button" onClick={onLeave}>
          {t('finding.right')}
        </button>
      </div>
      <p className="small">
        {t('finding.right.hint')}{' '}
        {onShow ? (
          <button type="button" className="link" onClick={() => onShow(thing.id)}>
            {t('finding.show')}
          </button>
        ) : null}
      </p>
    </section>
  );
}

/** The reading as it would be typed without the slip, in the unit that it was typed in. */
function suggestion(finding: Finding, text: string): string | null {
  if (finding.suggested === undefined) return null;
  return text.trim().endsWith('cm')
    ? `${number(finding.suggested * 100, 1, 'en')} cm`
    : `${number(finding.suggested, 2, 'en')} m`;
}
