import type { DepthReadings } from '@firnbook/science/depth';
import type { NamedBytes } from '../named-bytes.ts';
import { readTable } from '../table.ts';
import {
  checkFields,
  readCableChecks,
  readSoundings,
  readStrain,
  readZeros,
  soundingFields,
  zeroFields,
} from './measured.ts';
import { pieceFields, readPieces, withTrays } from './pieces.ts';
import { readRuns, runFields } from './runs.ts';

export interface DepthFiles {
  readonly runs: NamedBytes;
  readonly pieces: NamedBytes;
  readonly soundings?: NamedBytes;
  readonly cableChecks?: NamedBytes;
  readonly zeros?: NamedBytes;
  readonly strain?: NamedBytes;
}

/** Readings from files, ready for the adjustment, and the way back from its ids to the files. */
export interface ReadDepthFiles {
  readonly readings: DepthReadings;
  /** Per piece in the order of readings.pieces: run and piece as written in the file. */
  readonly pieceNames: readonly { readonly run: string; readonly piece: string }[];
  /** Run, `run-piece` or after_run as written, by the id in the readings. */
  readonly written: {
    readonly run: ReadonlyMap<string, string>;
    readonly piece: ReadonlyMap<string, string>;
    readonly sounding: ReadonlyMap<string, string>;
  };
  /** Header of each input column as it stands in the files. */
  readonly headers: Readonly<Record<InputField, string>>;
  /** Things that are odd and were taken anyway. */
  readonly remarks: readonly string[];
}

export type InputField =
  | 'from'
  | 'to'
  | 'length'
  | 'topBreak'
  | 'loss'
  | 'depth'
  | 'number'
  | 'run'
  | 'counter'
  | 'height';

/**
 * Reads the tables of one hole: runs and pieces, and where there are any soundings, cable checks, zeros, strain.
 *
 * Runs: run, depth_from_m, depth_to_m; may have stub_m, stub_sd_m, barrel_m, catcher_height_m, counter (zeroed, not
 * zeroed), zero, hours. Pieces: run, piece, length_m, top_break; may have loss_m, kerf_m, ice, order, temperature_c,
 * judged_length_m, judged_length_sd_m, catcher_mark_m, catcher_run, tray_top_m, tray_bottom_m. Soundings: after_run,
 * hole_depth_m, sd_m. Cable checks: after_run, mark_m, counter_m, sd_m. Zeros: zero, from_run, height_m, sd_m. Strain:
 * depth_m, strain_rate_per_year. Other units in the header (length_cm), comma or point. Depths of runs may be empty.
 * Runs are taken in the order of their numbers where all are whole numbers, else as listed; pieces likewise.
 *
 * @throws TableError with file, line, column and what to do
 */
export const readDepthFiles = (files: DepthFiles): ReadDepthFiles => {
  const runTable = readTable(files.runs.bytes, files.runs.name);
  const pieceTable = readTable(files.pieces.bytes, files.pieces.name);
  const runs = readRuns(runTable);
  const known = { file: runTable.file, lines: runs.lines };
  const pieces = readPieces(pieceTable, known);
  const soundings = files.soundings === undefined ? null : readSoundings(files.soundings, known);
  const checks = files.cableChecks === undefined ? null : readCableChecks(files.cableChecks, known);
  const zeros = files.zeros === undefined ? null : readZeros(files.zeros, known);
  return {
    readings: {
      runs: withTrays(runs.readings, pieces.trays),
      pieces: pieces.readings,
      soundings: soundings?.readings ?? [],
      ...(checks !== null && checks.readings.length > 0 && { cableChecks: checks.readings }),
      ...(zeros !== null && zeros.readings.length > 0 && { zeros: zeros.readings }),
      ...(files.strain !== undefined && { strain: readStrain(files.strain) }),
    },
    pieceNames: pieces.names,
    written: { run: runs.written, piece: pieces.written, sounding: soundings?.written ?? new Map() },
    headers: {
      from: runs.columns.from?.header ?? runFields.from.header,
      to: runs.columns.to?.header ?? runFields.to.header,
      length: pieces.columns.length?.header ?? pieceFields.length.header,
      topBreak: pieces.columns.topBreak?.header ?? pieceFields.topBreak.header,
      loss: pieces.columns.loss?.header ?? pieceFields.loss.header,
      depth: soundings?.columns.depth?.header ?? soundingFields.depth.header,
      number: runs.columns.run?.header ?? runFields.run.header,
      run: pieces.columns.run?.header ?? pieceFields.run.header,
      counter: checks?.columns.counter?.header ?? checkFields.counter.header,
      height: zeros?.columns.height?.header ?? zeroFields.height.header,
    },
    remarks: pieces.remarks,
  };
};
