import { depthReadings, type HoleView, type SetUps } from '@firnbook/campaign';
import type { DepthReadings } from '@firnbook/science/depth';
import { type Cell, writeTable } from './write-table.ts';

/** The tables that `readDepthFiles` reads, as text. Null where there is nothing to write. */
export interface ReadingsTables {
  readonly runs: string;
  readonly pieces: string;
  readonly soundings: string;
  readonly cableChecks: string | null;
  readonly zeros: string | null;
  readonly strain: string | null;
}

const HOUR = 3_600_000;

/**
 * What a hole's readings say about depth, as CSV in metres: the same readings that the solver is given, so that
 * solving these tables gives the same numbers as the book. Columns that nothing stands in are left out.
 */
export const writeReadings = (hole: HoleView, campaign: SetUps): ReadingsTables => {
  const readings = depthReadings(hole, campaign);
  const runNumbers = new Map(hole.runs.map((run) => [run.id, run.number]));
  const pieceNumbers = new Map(
    hole.runs.flatMap((run) => run.pieces).map((piece) => [piece.id, piece.number]),
  );
  const zeroNames = new Map(hole.zeros.map((zero) => [zero.id, zero.name]));
  const numberOf = (run: string | undefined): Cell =>
    run === undefined ? null : (runNumbers.get(run) ?? null);
  const zeroOf = (zero: string | undefined): Cell =>
    zero === undefined ? null : (zeroNames.get(zero) ?? null);
  const { runs, pieces, soundings, cableChecks, zeros } = readings;
  const trays = new Map(runs.flatMap((run) => run.trayTape?.breaks ?? []).map((one) => [one.piece, one]));
  return {
    runs: table(runs, ['run', 'depth_from_m', 'depth_to_m'], {
      run: ({ id }) => numberOf(id),
      depth_from_m: ({ from }) => from,
      depth_to_m: ({ to }) => to,
      stub_m: ({ leftInHole }) => leftInHole?.value,
      stub_sd_m: ({ leftInHole }) => leftInHole?.sd,
      barrel_m: ({ barrelLength }) => barrelLength,
      catcher_height_m: ({ catcherHeight }) => catcherHeight,
      counter: ({ resets }) => (resets === false ? 'not zeroed' : null),
      zero: ({ zero }) => zeroOf(zero),
      hours: ({ epoch }) => (epoch === undefined ? null : epoch / HOUR),
    }),
    pieces: table(pieces, ['run', 'piece', 'length_m', 'top_break', 'loss_m'], {
      run: ({ run }) => numberOf(run),
      piece: ({ id }) => pieceNumbers.get(id),
      length_m: ({ length }) => length,
      top_break: ({ topBreak }) => topBreak,
      loss_m: ({ loss }) => loss,
      kerf_m: ({ kerf }) => kerf,
      ice: ({ outOfPlace }) => (outOfPlace === true ? 'wall snow' : null),
      order: ({ orderUnsure }) => (orderUnsure === true ? 'unsure' : null),
      temperature_c: ({ temperature }) => temperature,
      judged_length_m: ({ crumbledMassLength }) => crumbledMassLength?.value,
      judged_length_sd_m: ({ crumbledMassLength }) => crumbledMassLength?.sd,
      catcher_mark_m: ({ catcherMark }) => catcherMark?.depth,
      catcher_run: ({ catcherMark }) => numberOf(catcherMark?.byRun),
      tray_top_m: ({ id }) => trays.get(id)?.top,
      tray_bottom_m: ({ id }) => trays.get(id)?.bottom,
    }),
    soundings: writeTable(
      ['after_run', 'hole_depth_m', 'sd_m'],
      soundings.map(({ afterRun, depth, sd }) => [numberOf(afterRun), depth, sd]),
    ),
    cableChecks:
      cableChecks === undefined
        ? null
        : writeTable(
            ['after_run', 'mark_m', 'counter_m', 'sd_m'],
            cableChecks.map(({ afterRun, mark, counter, sd }) => [numberOf(afterRun), mark, counter, sd]),
          ),
    zeros:
      zeros === undefined
        ? null
        : writeTable(
            ['zero', 'from_run', 'height_m', 'sd_m'],
            zeros.map(({ id, fromRun, height, sd }) => [zeroOf(id), numberOf(fromRun), height, sd]),
          ),
    strain: strainTable(readings),
  };
};

const strainTable = ({ strain }: DepthReadings): string | null =>
  strain === undefined
    ? null
    : writeTable(
        ['depth_m', 'strain_rate_per_year'],
        strain.depth.map((depth, at) => [depth, strain.rate[at]!]),
      );

type Columns<Row> = Readonly<Record<string, (row: Row) => Cell | undefined>>;

/** A table of the columns that are always there and of those in which something stands. */
function table<Row>(rows: readonly Row[], always: readonly string[], columns: Columns<Row>): string {
  const wanted = Object.keys(columns).filter(
    (name) => always.includes(name) || rows.some((row) => (columns[name]!(row) ?? null) !== null),
  );
  return writeTable(
    wanted,
    rows.map((row) => wanted.map((name) => columns[name]!(row) ?? null)),
  );
}
