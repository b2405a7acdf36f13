import { type Command, fieldOf, type HoleView, kindOf, readingEntry } from '@firnbook/campaign';
import type { DensitySlip } from '@firnbook/science/density';
import { type ReactNode, useState } from 'react';
import type { BookHandle } from '../device/book.ts';
import { Refusals } from '../forms/refusals.tsx';
import { fieldName, fieldWords } from '../texts/names.ts';
import { number } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { density } from './density-words.ts';
import { focusPlace } from './focus-place.ts';
import { MethodLink } from './method-link.tsx';
import { readingWords } from './reading-text.tsx';
import { refusalLines } from './refusal-lines.ts';
import { type FlaggedDensity, slipField } from './use-density.ts';

/** A density that ice can't have, or that its neighbours contradict: the likely slips as buttons. */
export function DensityQuestion(props: {
  readonly book: BookHandle;
  readonly hole: HoleView;
  readonly flag: FlaggedDensity;
  readonly onMeasure: (field: string) => void;
  readonly children?: ReactNode;
}) {
  const { book, hole, flag, onMeasure, children } = props;
  const { thing, piece, field } = flag;
  const [refusals, setRefusals] = useState<readonly string[]>([]);
  if (piece.result === null || piece.flag === null) return null;
  const take = (command: Command) =>
    void book.decide(command).then((taken) => {
      setRefusals(taken.ok ? [] : refusalLines(taken.refusals));
      // The question goes with its answer; the focus is not lost with it.
      if (taken.ok) focusPlace();
    });
  const { value } = piece.result.density;
  const { what, slips } = piece.flag;
  const says =
    what === 'more than ice'
      ? t('density.more.than.ice', {
          name: thing.name,
          density: density(value),
          ice: density(piece.result.ice),
        })
      : t(piece.flag.by > 0 ? 'density.above.neighbours' : 'density.below.neighbours', {
          name: thing.name,
          density: density(value),
          times: number(Math.abs(piece.flag.by), 0),
        });
  const reading = thing.readings[field];
  return (
    <section className="ask" data-finding="density">
      <h2>{t('finding.title')}</h2>
      <p>
        {says}{' '}
        {reading
          ? t('density.look.at', {
              field: fieldWords('piece', field),
              text: readingWords('piece', field, reading.text),
            })
          : ''}{' '}
        <MethodLink page="piece-density" section="what-is-odd" />
      </p>
      {children}
      <Refusals says={refusals} />
      <div className="answers">
        {slips.flatMap((slip) => {
          const suggested = suggestion(thing.readings[slipField(thing, slip) ?? '']?.text, slip);
          const its = slipField(thing, slip);
          if (suggested === null || its === undefined) return [];
          return [
            <button
              key={`${slip.reading} ${slip.index} ${slip.slip}`}
              type="button"
              className="act"
              onClick={() =>
                take(
                  thing.readings[its] === undefined
                    ? { do: 'add', thing: thing.id, readings: { [its]: suggested } }
                    : {
                        do: 'correct',
                        thing: thing.id,
                        readings: { [its]: suggested },
                        reason: t('reason.looked.again'),
                      },
                )
              }
            >
              {t('density.take', { field: fieldName('piece', its), text: suggested.replace(' ', '\u00a0') })}
              <small>{t('density.then', { density: density(slip.density) })}</small>
            </button>,
          ];
        })}
        <button type="button" onClick={() => onMeasure(field)}>
          {t('finding.measure')}
        </button>
        <button
          type="button"
          onClick={() =>
            take({
              do: 'log',
              kind: 'confirmed reading',
              hole: hole.id,
              readings: { of: thing.id, field, entry: readingEntry(hole, thing.id, field) ?? 'none' },
            })
          }
        >
          {t('finding.right')}
        </button>
      </div>
      <p className="small">{t('density.kept')}</p>
    </section>
  );
}

/** What the reading would have been, in the unit that it was typed in; null where several were read so. */
function suggestion(text: string | undefined, { instead, reading }: DensitySlip): string | null {
  if (instead === null) return null;
  const table = kindOf('piece');
  const field = table && fieldOf(table, reading === 'diameter' ? 'diameterTop' : reading);
  const usual = field !== undefined && 'unit' in field ? field.unit : '';
  const typed = /[a-z]+$/i.exec(text?.trim() ?? '')?.[0] ?? usual;
  const [factor, decimals] = scales[typed] ?? scales[usual] ?? [1, 3];
  const unit = scales[typed] ? typed : usual;
  return `${Number((instead * factor).toFixed(decimals))} ${unit}`;
}

/** From kilograms and metres. */
const scales: Readonly<Record<string, readonly [factor: number, decimals: number]>> = {
  g: [1000, 0],
  kg: [1, 3],
  mm: [1000, 1],
  cm: [100, 1],
  m: [1, 3],
};
