import type { Doubt } from '../command.ts';
import { zeroHeight } from '../depth/zeros.ts';
import { type Doubted, valueIn } from '../doubted.ts';
import { findRun, isCalled, standing, standingRuns } from '../find.ts';
import type { MeasureField } from '../kind.ts';
import { fieldOf } from '../kinds.ts';
import { likelySlips } from '../slips.ts';
import { type Sentence, sentence } from '../texts/sentence.ts';
import { numberIn } from '../thing-view.ts';
import type { RunView } from '../view.ts';
import { barrelOf } from './barrel.ts';

/** How far readings that claim the same thing may lie apart before it is asked about. Common practice, no source. */
const OVERLAP = 0.08;
const LIFT = 0.25;
const ADVANCE_MOST = 1.5;
const SOUNDING = 0.1;

export function runDoubts(doubted: Doubted): readonly Doubt[] {
  const { kind, hole, thing } = doubted;
  if (kind.kind !== 'run' || hole === null) return [];
  const others = standingRuns(hole).filter((run) => run.id !== thing?.id);
  return [...numberDoubts(doubted, others), ...depthDoubts(doubted, others)];
}

function numberDoubts(doubted: Doubted, others: readonly RunView[]): readonly Doubt[] {
  const number = valueIn(doubted, 'number');
  if (!doubted.said.includes('number') || number === null) return [];
  const last = Math.max(0, ...others.map((run) => run.number));
  const next = [
    {
      label: sentence('slip.run.number', { number: last + 1 }),
      readings: { number: String(last + 1) },
    },
  ];
  const twin = others.find((run) => run.number === number);
  if (twin !== undefined)
    return [{ field: 'number', what: sentence('doubt.run.there', { name: twin.name }), likely: next }];
  if (doubted.thing === null && number !== last + 1)
    return [
      {
        field: 'number',
        what:
          last === 0
            ? sentence('doubt.run.first', { number })
            : sentence('doubt.run.order', { last, number }),
        likely: next,
      },
    ];
  return [];
}

function depthDoubts(doubted: Doubted, others: readonly RunView[]): readonly Doubt[] {
  const { kind, readings, said } = doubted;
  const from = valueIn(doubted, 'from');
  const to = valueIn(doubted, 'to');
  const number = valueIn(doubted, 'number') ?? Number.POSITIVE_INFINITY;
  const before = others.filter((run) => run.number < number && numberIn(run, 'to') !== null).at(-1);
  const end = before === undefined ? null : numberIn(before, 'to');
  // Counted from a zero that stands higher, the same depth reads more.
  const now = heightOf(doubted, readings.zero, doubted.thing?.at);
  const then = before === undefined ? null : heightOf(doubted, before.readings.zero?.text, before.at);
  const bottom = end === null || now === null || then === null ? null : end + now - then;
  const doubts: Doubt[] = [];
  const ask = (field: 'from' | 'to', what: Sentence, isRight: (metres: number) => boolean): void => {
    const likely = likelySlips(readings[field] ?? '', fieldOf(kind, field) as MeasureField, kind, isRight);
    doubts.push({ field, what, likely });
  };
  if (from !== null && bottom !== null && said.includes('from') && before !== undefined) {
    const fits = (metres: number): boolean => metres >= bottom - OVERLAP && metres <= bottom + OVERLAP;
    if (from < bottom - LIFT)
      ask(
        'from',
        sentence('doubt.run.above', {
          name: before.name,
          bottom: { depth: bottom },
          length: { length: bottom - from },
        }),
        fits,
      );
    else if (from > bottom + OVERLAP)
      ask(
        'from',
        sentence('doubt.run.below', {
          name: before.name,
          bottom: { depth: bottom },
          length: { length: from - bottom },
        }),
        fits,
      );
  }
  if (from === null || to === null || !(said.includes('to') || said.includes('from'))) return doubts;
  const goesWell = (metres: number): boolean => metres > from && metres - from <= ADVANCE_MOST;
  if (to < from) {
    doubts.push({
      field: 'to',
      what: sentence('doubt.run.upwards', { to: { depth: to }, from: { depth: from } }),
      likely: [
        {
          label: sentence('slip.ends', { from: readings.to!, to: readings.from! }),
          readings: { from: readings.to!, to: readings.from! },
        },
        ...likelySlips(readings.to!, fieldOf(kind, 'to') as MeasureField, kind, goesWell),
      ],
    });
    // Where it is known what the barrel holds, that is asked about.
  } else if (to - from > ADVANCE_MOST && barrelOf(doubted) === null)
    ask('to', sentence('doubt.run.long', { length: { length: to - from } }), goesWell);
  return doubts;
}

/**
 * Height of a run's zero, metres: of the one that it names, else of the newest there was. Null where nobody measured it.
 *
 * @param at when the run was logged; now where it is left out
 */
function heightOf({ hole }: Doubted, named = '', at?: string): number | null {
  if (hole === null) return null;
  const zeros = standing(hole.zeros);
  const there = zeros.filter((one) => at === undefined || !(Date.parse(one.at) > Date.parse(at)));
  const zero = zeros.find((one) => isCalled(one, named)) ?? there.at(-1) ?? zeros[0];
  return zero === undefined ? 0 : (zeroHeight(hole, zero)?.height ?? null);
}

export function soundingDoubts(doubted: Doubted): readonly Doubt[] {
  const { kind, hole, readings, said } = doubted;
  const depth = valueIn(doubted, 'depth');
  if (kind.kind !== 'sounding' || hole === null || depth === null || !said.includes('depth')) return [];
  const run = findRun(hole, readings.afterRun ?? '');
  const bottom = run === undefined ? null : numberIn(run, 'to');
  if (run === undefined || bottom === null) return [];
  // The weight comes to rest on the ice that still stands.
  const stub = Math.max(
    numberIn(run, 'stub') ?? 0,
    run.nothingRecovered ? bottom - (numberIn(run, 'from') ?? bottom) : 0,
  );
  const fits = (metres: number): boolean =>
    metres <= bottom + tolerance(bottom) && metres >= bottom - stub - tolerance(bottom);
  if (fits(depth)) return [];
  return [
    {
      field: 'depth',
      what: sentence('doubt.sounding', {
        name: run.name,
        bottom: { depth: bottom },
        depth: readings.depth!,
      }),
      likely: likelySlips(readings.depth!, fieldOf(kind, 'depth') as MeasureField, kind, fits),
    },
  ];
}

/** An unchecked cable may be out by half a percent. */
const tolerance = (depth: number): number => SOUNDING + 0.005 * depth;
