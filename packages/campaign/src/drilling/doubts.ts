import type { Doubt } from '../command.ts';
import { type Doubted, valueIn } from '../doubted.ts';
import { findRun, standingRuns } from '../find.ts';
import type { LengthField } from '../kind.ts';
import { fieldOf } from '../kinds.ts';
import { sayDepth, sayLength } from '../say.ts';
import { likelySlips } from '../slips.ts';
import { numberIn } from '../thing-view.ts';
import type { RunView } from '../view.ts';

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
  const next = [{ label: `Run ${last + 1}`, readings: { number: String(last + 1) } }];
  const twin = others.find((run) => run.number === number);
  if (twin !== undefined)
    return [{ field: 'number', what: `There is a ${twin.name} already. Is this another run?`, likely: next }];
  if (doubted.thing === null && number !== last + 1)
    return [
      {
        field: 'number',
        what:
          last === 0
            ? `The first run is called ${number}.`
            : `The last run was ${last}, this one is ${number}. Is it right?`,
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
  const bottom = before === undefined ? null : numberIn(before, 'to');
  const doubts: Doubt[] = [];
  const ask = (field: 'from' | 'to', what: string, isRight: (metres: number) => boolean): void => {
    const slips = likelySlips(readings[field] ?? '', fieldOf(kind, field) as LengthField, isRight);
    doubts.push({
      field,
      what,
      likely: slips.map(({ label, text }) => ({ label, readings: { [field]: text } })),
    });
  };
  if (from !== null && bottom !== null && said.includes('from') && before !== undefined) {
    const fits = (metres: number): boolean => metres >= bottom - OVERLAP && metres <= bottom + OVERLAP;
    if (from < bottom - LIFT)
      ask(
        'from',
        `${before.name} ended at ${sayDepth(bottom)}, this run starts ${sayLength(bottom - from)} above that. Is it right?`,
        fits,
      );
    else if (from > bottom + OVERLAP)
      ask(
        'from',
        `${before.name} ended at ${sayDepth(bottom)}, this run starts ${sayLength(from - bottom)} below that. Is it right?`,
        fits,
      );
  }
  if (from === null || to === null || !(said.includes('to') || said.includes('from'))) return doubts;
  const goesWell = (metres: number): boolean => metres > from && metres - from <= ADVANCE_MOST;
  if (to < from) {
    doubts.push({
      field: 'to',
      what: `The run ends at ${sayDepth(to)}, above its start at ${sayDepth(from)}. Is it right?`,
      likely: [
        {
          label: `Swapped: from ${readings.to} to ${readings.from}`,
          readings: { from: readings.to!, to: readings.from! },
        },
        ...likelySlips(readings.to!, fieldOf(kind, 'to') as LengthField, goesWell).map(({ label, text }) => ({
          label,
          readings: { to: text },
        })),
      ],
    });
  } else if (to - from > ADVANCE_MOST)
    ask('to', `The run is ${sayLength(to - from)} long, more than a barrel holds. Is it right?`, goesWell);
  return doubts;
}

export function soundingDoubts(doubted: Doubted): readonly Doubt[] {
  const { kind, hole, readings, said } = doubted;
  const depth = valueIn(doubted, 'depth');
  if (kind.kind !== 'sounding' || hole === null || depth === null || !said.includes('depth')) return [];
  const run = findRun(hole, readings.afterRun ?? '');
  const bottom = run === undefined ? null : numberIn(run, 'to');
  if (run === undefined || bottom === null || Math.abs(depth - bottom) <= tolerance(bottom)) return [];
  const fits = (metres: number): boolean => Math.abs(metres - bottom) <= tolerance(bottom);
  return [
    {
      field: 'depth',
      what: `${run.name} ended at ${sayDepth(bottom)} by the cable, the tape says ${readings.depth}. Is it right?`,
      likely: likelySlips(readings.depth!, fieldOf(kind, 'depth') as LengthField, fits).map(
        ({ label, text }) => ({
          label,
          readings: { depth: text },
        }),
      ),
    },
  ];
}

/** An unchecked cable may be out by half a percent. */
const tolerance = (depth: number): number => SOUNDING + 0.005 * depth;
