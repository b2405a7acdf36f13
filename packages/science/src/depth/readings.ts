import type { Celsius, Metres, Ratio } from '../units.ts';

/**
 * How the top of a piece meets the piece above it:
 * - `fits`: the faces match;
 * - `ground`: the core spun and ground itself, some ice is gone;
 * - `loss`: ice is missing, `loss` says how much where somebody estimated it;
 * - `sawn`: cut on purpose, the saw's `kerf` is gone;
 * - `handling`: broken after it came up, nothing is gone;
 * - `unsure`: nobody can tell.
 */
export type BreakClass = 'fits' | 'ground' | 'loss' | 'unsure' | 'sawn' | 'handling';

/** A value that somebody judged or worked out, with its standard deviation. */
export interface Judged {
  readonly value: Metres;
  readonly sd: Metres;
}

/** A run's core assembled on one tray tape: where its pieces begin and end along the tape. */
export interface TrayTape {
  /** The tape, see `PieceReading.tape`. */
  readonly tape?: string;
  /** Standard deviation of one position; 1 mm where nobody says. */
  readonly sd?: Metres;
  /** Where a piece's bottom and the next one's top have the same position, they are one reading. */
  readonly breaks: readonly { readonly piece: string; readonly top: Metres; readonly bottom: Metres }[];
}

/** One trip of the drill, in the order of the work. Depths are the driller's, from the cable. */
export interface RunReading {
  readonly id: string;
  /** Counter when the drill touched down; absent where it was not read. */
  readonly from?: Metres;
  /** Counter at the end of cutting, cable taut. */
  readonly to?: Metres;
  /** The counter was zeroed for this trip; true where it is left out. If not, its offset drifts slowly from run to run. */
  readonly resets?: boolean;
  /** Longest core that the drill holds: the stub left before and the run's advance together can't exceed it. */
  readonly barrelLength?: Metres;
  /** Catchers above the bottom of the hole at the end of the run. */
  readonly catcherHeight?: Metres;
  /** Mean temperature of the cable in the hole. */
  readonly cableTemperature?: Celsius;
  /** The zero (of `zeros`) that the run's counter refers to; the latest so far where it is left out. */
  readonly zero?: string;
  /** Milliseconds since the hole's first run. */
  readonly epoch?: number;
  /** Stub that the driller believes was left standing. */
  readonly leftInHole?: Judged;
  readonly trayTape?: TrayTape;
}

/** One piece of core as measured on the bench, in the order in which it came up (top first). */
export interface PieceReading {
  readonly id: string;
  /** The run that brought it up. */
  readonly run: string;
  readonly length?: Metres;
  /** The same length measured anew, each time without a look at the others (`length` is not among them). */
  readonly lengths?: readonly Metres[];
  readonly topBreak: BreakClass;
  /** Estimated missing ice above this piece, where topBreak is 'loss'. */
  readonly loss?: Metres;
  /** Width of the saw's cut above this piece, where topBreak is 'sawn'. */
  readonly kerf?: Metres;
  /** The tape that it was measured with; all pieces without one share one. Each tape has a scale error of its own. */
  readonly tape?: string;
  /** Of the core while it was measured. */
  readonly temperature?: Celsius;
  /** Wall snow, chip plug, milled ice: it has a length but no depth, and stays out of the adjustment. */
  readonly outOfPlace?: boolean;
  /** Length of crumbled core, from its mass and density. */
  readonly crumbledMassLength?: Judged;
  /** Scratches of the core catchers: how far below the piece's top, and the run whose catchers made them. */
  readonly catcherMark?: { readonly depth: Metres; readonly byRun: string; readonly sd?: Metres };
  /** It may lie below the next piece of its run instead of above it. */
  readonly orderUnsure?: boolean;
  /** Found after its neighbours were logged; its place in the list counts. */
  readonly foundLater?: boolean;
}

/** Depth of the hole after a run, by weighted tape or by the drill's marked cable. */
export interface SoundingReading {
  readonly id: string;
  readonly afterRun: string;
  readonly depth: Metres;
  /** Standard deviation of the sounding itself. */
  readonly sd: Metres;
  /** Weighted tape where it is left out. */
  readonly by?: 'tape' | 'cable mark';
  /** The zero that it refers to, as `RunReading.zero`. */
  readonly zero?: string;
}

/** The counter held against a mark on the cable: with `mark` metres of cable out, it showed `counter`. */
export interface CableCheck {
  readonly id: string;
  /** Made after this run. */
  readonly afterRun: string;
  readonly counter: Metres;
  readonly mark: Metres;
  /** Standard deviation of the mark's place and of the pointing; the counter's own errors come on top. */
  readonly sd: Metres;
}

/** A zero measured again: from this run on depths are read from a surface at this height. */
export interface ZeroReading {
  readonly id: string;
  /** Above a fixed mark that all zeros of the hole share; up is positive. */
  readonly height: Metres;
  readonly sd: Metres;
  readonly fromRun: string;
}

/** Vertical strain rate of the firn over depth, linear in between, that of the ends beyond them; compression is negative. */
export interface StrainTable {
  readonly depth: readonly Metres[];
  /** Per year. */
  readonly rate: readonly number[];
}

/** Data of the drill's cable, where they are known: the counter counts cable without load. */
export interface CableData {
  /** Young's modulus times cross-section, newtons. */
  readonly stiffness: number;
  /** Newtons per metre, and of the drill that hangs on it. */
  readonly weightPerMetre: number;
  readonly load: number;
  /** Per kelvin, and the temperature at which the counter was calibrated. */
  readonly expansion: Ratio;
  readonly calibratedAt: Celsius;
}

/** Everything that says something about depth in one hole. */
export interface DepthReadings {
  readonly runs: readonly RunReading[];
  readonly pieces: readonly PieceReading[];
  readonly soundings: readonly SoundingReading[];
  readonly cableChecks?: readonly CableCheck[];
  /** In order of time; depths are given from the first. */
  readonly zeros?: readonly ZeroReading[];
  readonly cable?: CableData;
  /** Of the ice in the hole, where lengths are reduced to it. */
  readonly holeTemperature?: Celsius;
  readonly strain?: StrainTable;
  /** Epoch to which depths are reduced with `strain`, milliseconds since the hole's first run; 0 where left out. */
  readonly referenceEpoch?: number;
}
