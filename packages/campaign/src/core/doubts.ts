import type { Doubt } from '../command.ts';
import { isOutOfPlace, isOutOfPlaceWord } from '../depth/out-of-place.ts';
import { type Doubted, valueIn } from '../doubted.ts';
import { findRun, standingPieces } from '../find.ts';
import type { MeasureField } from '../kind.ts';
import { fieldOf } from '../kinds.ts';
import { likelySlips } from '../slips.ts';
import { wordText } from '../texts/called.ts';
import { sentence } from '../texts/sentence.ts';
import { numberIn } from '../thing-view.ts';
import type { HoleView, PieceView, RunView } from '../view.ts';
import { advanceOf, leftBefore } from './left-before.ts';

/** More core than this beyond what was drilled, and not explained by ice left before, is asked about. No source. */
const EXCESS = 0.03;
/** Sums of decimals are off by less. */
const HAIR = 1e-9;

/** Breaks at which ice is gone. */
const losing: ReadonlySet<string> = new Set(['loss', 'ground']);

export function pieceDoubts(doubted: Doubted): readonly Doubt[] {
  const { kind, hole, thing, readings } = doubted;
  if (kind.kind !== 'piece' || hole === null) return [];
  const run = findRun(hole, readings.run ?? '');
  if (run === undefined) return [];
  const others = standingPieces(run).filter((piece) => piece.id !== thing?.id);
  return [
    ...emptyRunDoubts(doubted, run),
    ...numberDoubts(doubted, run, others),
    ...lengthDoubts(
      doubted,
      hole,
      run,
      others.filter((piece) => !isOutOfPlace(piece)),
    ),
    ...lossDoubts(doubted),
  ];
}

/** What is about to be said is no core. */
const isLaidAside = ({ readings }: Doubted): boolean => isOutOfPlaceWord(readings.ice ?? '');

function emptyRunDoubts({ thing }: Doubted, run: RunView): readonly Doubt[] {
  if (!run.nothingRecovered || thing !== null) return [];
  return [
    {
      field: 'run',
      what: sentence('doubt.piece.empty.run', { name: run.name }),
      likely: [],
    },
  ];
}

function numberDoubts(doubted: Doubted, run: RunView, others: readonly PieceView[]): readonly Doubt[] {
  const number = valueIn(doubted, 'number');
  if (!doubted.said.includes('number') || number === null) return [];
  // Snow off the wall is numbered where it lay, above the core or below it: it makes no order.
  const isCore = !isLaidAside(doubted);
  const last = Math.max(0, ...others.filter((piece) => !isOutOfPlace(piece)).map((piece) => piece.number));
  let free = last + 1;
  while (others.some((piece) => piece.number === free)) free += 1;
  const next = [
    {
      label: sentence('slip.piece.number', { number: free }),
      readings: { number: String(free) },
    },
  ];
  const twin = others.find((piece) => piece.number === number);
  if (twin !== undefined)
    return [{ field: 'number', what: sentence('doubt.piece.there', { name: twin.name }), likely: next }];
  if (doubted.thing === null && isCore && number !== last + 1 && number !== free)
    return [
      {
        field: 'number',
        what: sentence(last === 0 ? 'doubt.piece.first' : 'doubt.piece.order', {
          name: run.name,
          last,
          number,
        }),
        likely: next,
      },
    ];
  return [];
}

/** Run length against advance: core that was drilled, or stood in the hole before, is all that can come up. */
function lengthDoubts(
  doubted: Doubted,
  hole: HoleView,
  run: RunView,
  others: readonly PieceView[],
): readonly Doubt[] {
  const length = valueIn(doubted, 'length');
  const advance = advanceOf(run);
  if (length === null || advance === null || !doubted.said.includes('length') || isLaidAside(doubted))
    return [];
  const rest = advance - others.reduce((sum, piece) => sum + (numberIn(piece, 'length') ?? 0), 0);
  const left = leftBefore(hole, run);
  const excess = length - rest - left;
  if (excess <= EXCESS + HAIR) return [];
  const said = doubted.readings.length!;
  const fits = (metres: number): boolean => metres - rest - left <= EXCESS + HAIR && metres > 0.005;
  return [
    {
      field: 'length',
      what: sentence('doubt.piece.length', {
        text: said,
        length: { length: length - rest },
        name: run.name,
      }),
      likely: likelySlips(said, fieldOf(doubted.kind, 'length') as MeasureField, doubted.kind, fits),
    },
  ];
}

function lossDoubts(doubted: Doubted): readonly Doubt[] {
  const { readings, said } = doubted;
  if (!said.includes('loss') || valueIn(doubted, 'loss') === null || losing.has(readings.topBreak ?? ''))
    return [];
  return [
    {
      field: 'loss',
      what: sentence('doubt.piece.loss', {
        loss: readings.loss ?? '',
        break: wordText('piece', 'topBreak', readings.topBreak ?? ''),
      }),
      likely: [{ label: sentence('slip.ice.lost'), readings: { topBreak: 'loss' } }],
    },
  ];
}
