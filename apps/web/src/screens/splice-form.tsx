import type { ThingView } from '@firnbook/campaign';
import type { OffsetEstimate } from '@firnbook/science/depth-scales';
import { type FormEvent, useId, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { Refusals } from '../forms/refusals.tsx';
import { moment, number, shortLength } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { initialsOf } from './people.ts';
import { ReadingText } from './reading-text.tsx';
import { refusalLines } from './refusal-lines.ts';

/** Millimetres. */
const steps = [-10, -1, 1, 10] as const;
/** Centimetres, one standard deviation, where nobody has said one. Common practice, no source. */
const usualSd = 5;

/** The offset in steps of millimetres or as a number, how well it is known, and how it was found. */
export function SpliceForm(props: {
  readonly book: BookHandle;
  readonly of: string;
  readonly on: string;
  readonly names: { readonly of: string; readonly on: string };
  /** Metres: depth in `of` less depth in `on`. */
  readonly offset: number;
  /** The splice as it is in the book. */
  readonly kept: ThingView | undefined;
  /** What the matched layers say. */
  readonly found: OffsetEstimate | null;
  readonly layers: number;
  readonly onOffset: (offset: number) => void;
}) {
  const { book, of, on, names, offset, kept, found, layers, onOffset } = props;
  const keptSd = kept?.readings.sd?.value;
  const [sd, setSd] = useState(() => number((keptSd ?? usualSd / 100) * 100, 1));
  const [method, setMethod] = useState('');
  const [typing, setTyping] = useState<string | null>(null);
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  const id = useId();
  const shown = typing ?? number(offset * 100, 1);
  const [cm, sdCm] = [centimetres(shown), centimetres(sd)];
  const take = (metres: number) => {
    setTyping(null);
    onOffset(Math.round(metres * 1000) / 1000);
  };
  const save = async (event: FormEvent) => {
    event.preventDefault();
    const why = method.trim();
    if (cm === null || sdCm === null || !(sdCm > 0)) {
      setRefusals([t('splices.no.number')]);
      return;
    }
    if (why === '') {
      setRefusals([t('splices.no.method')]);
      return;
    }
    const readings = { offset: `${cm.toFixed(1)} cm`, sd: `${sdCm.toFixed(1)} cm`, method: why };
    const taken = await book.decide(
      kept === undefined
        ? { do: 'log', kind: 'splice', readings: { of, on, ...readings } }
        : { do: 'correct', thing: kept.id, readings, reason: why },
    );
    setRefusals(taken.ok ? [] : refusalLines(taken.refusals));
    if (taken.ok) setMethod('');
  };
  const { campaign } = book;
  return (
    <form className="splice-form" onSubmit={(event) => void save(event)}>
      <p>{t('splices.says', { of: names.of, on: names.on })}</p>
      <div className="splice-offset">
        {steps.slice(0, 2).map((step) => (
          <Step key={step} step={step} onTake={() => take(offset + step / 1000)} />
        ))}
        <label htmlFor={`${id}-offset`} className="hidden">
          {t('splices.offset')}
        </label>
        <span className="core-axis-depth">
          <input
            id={`${id}-offset`}
            inputMode="decimal"
            autoComplete="off"
            value={shown}
            onChange={(event) => {
              setTyping(event.target.value);
              const next = centimetres(event.target.value);
              if (next !== null) onOffset(next / 100);
            }}
            onBlur={() => cm !== null && setTyping(null)}
          />
          <span>cm</span>
        </span>
        {steps.slice(2).map((step) => (
          <Step key={step} step={step} onTake={() => take(offset + step / 1000)} />
        ))}
      </div>
      {found === null ? null : (
        <div className="splice-found">
          <p>
            {t('splices.found', {
              count: layers,
              offset: `${number(found.offset.value * 100, 1)}\u00a0cm`,
              sd: shortLength(found.offset.sd),
            })}
            {found.odd.length > 0 ? ` ${t('splices.odd', { count: found.odd.length })}` : ''}
          </p>
          <button
            type="button"
            onClick={() => {
              take(found.offset.value);
              setSd(number(Math.max(0.1, found.offset.sd * 100), 1));
              if (method === '') setMethod(t('splices.method.layers', { count: layers }));
            }}
          >
            {t('splices.take')}
          </button>
        </div>
      )}
      <div className="splice-words">
        <label htmlFor={`${id}-sd`}>{t('splices.sd')}</label>
        <span className="core-axis-depth">
          <input
            id={`${id}-sd`}
            inputMode="decimal"
            autoComplete="off"
            value={sd}
            onChange={(event) => setSd(event.target.value)}
          />
          <span>cm</span>
        </span>
        <label htmlFor={`${id}-method`}>{t(kept ? 'splices.why' : 'splices.method')}</label>
        <input
          id={`${id}-method`}
          className="method"
          autoComplete="off"
          maxLength={400}
          value={method}
          onChange={(event) => setMethod(event.target.value)}
        />
      </div>
      <Refusals says={refusals} />
      <button type="submit" className="act">
        {t(kept ? 'splices.correct' : 'splices.save')}
      </button>
      {kept && campaign && kept.readings.offset ? (
        <p className="small quiet" role="status">
          {t('splices.kept')} <ReadingText campaign={campaign} thing={kept} reading={kept.readings.offset} />{' '}
          {kept.readings.method ? `(${kept.readings.method.text}) ` : ''}
          {t('list.by', {
            by: initialsOf(campaign, kept.readings.offset.by),
            at: moment(kept.readings.offset.at),
          })}
        </p>
      ) : null}
    </form>
  );
}

function Step({ step, onTake }: { readonly step: number; readonly onTake: () => void }) {
  const size = Math.abs(step);
  return (
    <button type="button" onClick={onTake} aria-label={t(step < 0 ? 'splices.up' : 'splices.down', { size })}>
      {step < 0 ? '\u2212' : '+'}
      {size}
      {'\u00a0'}mm
    </button>
  );
}

/** With comma or point, and either minus; null where it is no number. */
function centimetres(text: string): number | null {
  const plain = text
    .trim()
    .replace(',', '.')
    .replace(/^\u2212/, '-');
  return /^-?\d+(\.\d*)?$|^-?\.\d+$/.test(plain) ? Number(plain) : null;
}
