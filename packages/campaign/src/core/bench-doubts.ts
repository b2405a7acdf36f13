import type { Doubt } from '../command.ts';
import { isOutOfPlaceWord } from '../depth/out-of-place.ts';
import { onTray, trayTapes } from '../depth/tray-tapes.ts';
import { type Doubted, valueIn } from '../doubted.ts';
import { findRun, isCalled } from '../find.ts';
import type { LengthsField, MeasureField } from '../kind.ts';
import { fieldOf } from '../kinds.ts';
import { lengthsIn } from '../reading.ts';
import { likelySlips } from '../slips.ts';
import { sentence } from '../texts/sentence.ts';
import { numberIn } from '../thing-view.ts';
import type { HoleView, PieceView } from '../view.ts';
import { advanceOf, corePieces, leftBefore } from './left-before.ts';

/** A tape along the tray and what was drilled may differ by so much before it is asked about. No source. */
const TRAY = 0.06;
/** A feature may lie beyond the end of its piece by so much: lengths are read to a few millimetres. */
const BEYOND = 0.005;

/** A tray tape has a place for every end of a piece, runs downwards, and is as long as the run. */
export function trayDoubts(doubted: Doubted): readonly Doubt[] {
  const { kind, hole, readings, said } = doubted;
  if (kind.kind !== 'tray' || hole === null || !said.includes('positions')) return [];
  const run = findRun(hole, readings.run ?? '');
  const at = lengthsIn(readings.positions ?? '', fieldOf(kind, 'positions') as LengthsField);
  if (run === undefined || at.length < 2) return [];
  if (at.some((one, index) => index > 0 && one < at[index - 1]!))
    return [{ field: 'positions', what: sentence('doubt.tray.backwards'), likely: [] }];
  const count = corePieces(run).length;
  const laid = onTray(run, at.length);
  if (count > 0 && laid === null)
    return [
      {
        field: 'positions',
        what: sentence('doubt.tray.count', { name: run.name, count, places: at.length, wanted: count + 1 }),
        likely: [],
      },
    ];
  const drilled = advanceOf(run);
  const length = at.at(-1)! - at[0]!;
  // With snow off the wall between its ends the tape is no measure of the core.
  const isCore = laid === null || laid.length === count;
  if (drilled === null || !isCore || length - drilled - leftBefore(hole, run) <= TRAY) return [];
  return [
    {
      field: 'positions',
      what: sentence('doubt.tray.long', {
        name: run.name,
        length: { length },
        drilled: { length: drilled },
      }),
      likely: [],
    },
  ];
}

/** A piece more than the tray tape of its run has places for takes the tape out of the depths. */
export function outgrownDoubts({ kind, hole, thing, readings }: Doubted): readonly Doubt[] {
  if (kind.kind !== 'piece' || hole === null || thing !== null) return [];
  const run = findRun(hole, readings.run ?? '');
  const tape = run === undefined ? undefined : trayTapes(hole).get(run.id);
  const isAside = isOutOfPlaceWord(readings.ice ?? '');
  if (run === undefined || tape === undefined || isAside) return [];
  return [
    {
      field: 'run',
      what: sentence('doubt.tray.outgrown', { name: run.name, count: tape.breaks.length }),
      likely: [],
    },
  ];
}

/** What was seen lies in its piece. */
export function featureDoubts(doubted: Doubted): readonly Doubt[] {
  const { kind, hole, readings, said } = doubted;
  if (kind.kind !== 'feature' || hole === null || !(said.includes('at') || said.includes('thickness')))
    return [];
  const piece = pieceIn(hole, readings.piece ?? '');
  const long = piece === undefined ? null : numberIn(piece, 'length');
  const at = valueIn(doubted, 'at');
  if (piece === undefined || long === null || at === null) return [];
  const end = at + (valueIn(doubted, 'thickness') ?? 0);
  if (end <= long + BEYOND) return [];
  return [
    {
      field: 'at',
      what: sentence('doubt.feature.beyond', {
        name: piece.name,
        at: { length: end },
        length: { length: long },
      }),
      likely: likelySlips(
        readings.at ?? '',
        fieldOf(kind, 'at') as MeasureField,
        kind,
        (metres) => metres + (end - at) <= long,
      ),
    },
  ];
}

/** A scratch of the catcher lies on its piece, too. */
export function scratchDoubts(doubted: Doubted): readonly Doubt[] {
  const { kind, readings, said } = doubted;
  const mark = valueIn(doubted, 'catcherMark');
  const long = valueIn(doubted, 'length');
  if (kind.kind !== 'piece' || !said.includes('catcherMark') || mark === null || long === null) return [];
  if (mark <= long + BEYOND) return [];
  return [
    {
      field: 'catcherMark',
      what: sentence('doubt.scratch.beyond', { at: { length: mark }, length: { length: long } }),
      likely: likelySlips(
        readings.catcherMark ?? '',
        fieldOf(kind, 'catcherMark') as MeasureField,
        kind,
        (metres) => metres <= long,
      ),
    },
  ];
}

function pieceIn(hole: HoleView, id: string): PieceView | undefined {
  for (const run of hole.runs) {
    const piece = run.pieces.find((one) => isCalled(one, id));
    if (piece !== undefined) return piece;
  }
  return undefined;
}
