import type { Doubt } from '../command.ts';
import { type Doubted, valueIn } from '../doubted.ts';
import { findRun, standingPieces, standingRuns } from '../find.ts';
import type { LengthField } from '../kind.ts';
import { fieldOf } from '../kinds.ts';
import { sayLength } from '../say.ts';
import { likelySlips } from '../slips.ts';
import { numberIn } from '../thing-view.ts';
import type { HoleView, PieceView, RunView } from '../view.ts';

/** More core than this beyond what was drilled, and not explained by ice left before, is asked about. No source. */
const EXCESS = 0.03;

export function pieceDoubts(doubted: Doubted): readonly Doubt[] {
  const { kind, hole, thing, readings } = doubted;
  if (kind.kind !== 'piece' || hole === null) return [];
  const run = findRun(hole, readings.run ?? '');
  if (run === undefined) return [];
  const others = standingPieces(run).filter((piece) => piece.id !== thing?.id);
  return [
    ...emptyRunDoubts(doubted, run),
    ...numberDoubts(doubted, run, others),
    ...lengthDoubts(doubted, hole, run, others),
    ...lossDoubts(doubted),
  ];
}

function emptyRunDoubts({ thing }: Doubted, run: RunView): readonly Doubt[] {
  if (!run.nothingRecovered || thing !== null) return [];
  return [
    {
      field: 'run',
      what: `${run.name} is logged as having brought nothing. Does this piece come from it?`,
      likely: [],
    },
  ];
}

function numberDoubts(doubted: Doubted, run: RunView, others: readonly PieceView[]): readonly Doubt[] {
  const number = valueIn(doubted, 'number');
  if (!doubted.said.includes('number') || number === null) return [];
  const last = Math.max(0, ...others.map((piece) => piece.number));
  const next = [{ label: `Piece ${last + 1}`, readings: { number: String(last + 1) } }];
  const twin = others.find((piece) => piece.number === number);
  if (twin !== undefined)
    return [
      { field: 'number', what: `There is a ${twin.name} already. Is this another piece?`, likely: next },
    ];
  if (doubted.thing === null && number !== last + 1)
    return [
      {
        field: 'number',
        what: `The last piece of ${run.name} was ${last === 0 ? 'none' : last}, this one is ${number}. Is it right?`,
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
  if (length === null || advance === null || !doubted.said.includes('length')) return [];
  const rest = advance - others.reduce((sum, piece) => sum + (numberIn(piece, 'length') ?? 0), 0);
  const left = leftBefore(hole, run);
  const excess = length - rest - left;
  if (excess <= EXCESS) return [];
  const said = doubted.readings.length!;
  const fits = (metres: number): boolean => metres - rest - left <= EXCESS && metres > 0.005;
  return [
    {
      field: 'length',
      what: `With this piece of ${said}, ${sayLength(length - rest)} more core lie on the bench than ${run.name} drilled. Is it right?`,
      likely: likelySlips(said, fieldOf(doubted.kind, 'length') as LengthField, fits).map(
        ({ label, text }) => ({
          label,
          readings: { length: text },
        }),
      ),
    },
  ];
}

function lossDoubts(doubted: Doubted): readonly Doubt[] {
  const { readings, said } = doubted;
  if (!said.includes('loss') || valueIn(doubted, 'loss') === null || readings.topBreak === 'loss') return [];
  return [
    {
      field: 'loss',
      what: `Lost ice of ${readings.loss} is given, but the break above is logged as "${readings.topBreak}". Is ice lost there?`,
      likely: [{ label: 'Ice is lost there', readings: { topBreak: 'loss' } }],
    },
  ];
}

const advanceOf = (run: RunView): number | null => {
  const from = numberIn(run, 'from');
  const to = numberIn(run, 'to');
  return from === null || to === null ? null : to - from;
};

/** Core that the runs just before drilled and did not bring up: it may come now. */
function leftBefore(hole: HoleView, run: RunView): number {
  const before = standingRuns(hole).filter((one) => one.number < run.number);
  let left = 0;
  for (const one of before.slice(-3)) {
    const core = standingPieces(one).reduce((sum, piece) => sum + (numberIn(piece, 'length') ?? 0), 0);
    // Pieces that nobody has measured yet say nothing.
    const isMeasured = one.nothingRecovered || one.pieces.length > 0;
    left = Math.max(0, left + (isMeasured ? (advanceOf(one) ?? 0) - core : 0));
  }
  return left;
}
