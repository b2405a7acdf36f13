/**
 * What a crew wrote down in an invented season, and what really happened. Own types: the simulator shares nothing
 * with the solver but the shape of plain readings. Depths and lengths in metres.
 */
export interface WrittenRun {
  readonly id: string;
  readonly from?: number;
  readonly to?: number;
  /** The counter was zeroed for this trip (true where left out). */
  readonly resets?: boolean;
  readonly barrelLength?: number;
  /** Of the core catchers above the bottom of the hole. */
  readonly catcherHeight?: number;
  /** Where the pieces lie along one tape, read instead of their lengths. */
  readonly trayTape?: {
    readonly tape: string;
    readonly breaks: readonly { readonly piece: string; readonly top: number; readonly bottom: number }[];
  };
}

export interface WrittenPiece {
  readonly id: string;
  readonly run: string;
  readonly length?: number;
  /** Measured again by another who had not seen the first. */
  readonly lengths?: readonly number[];
  readonly topBreak: 'fits' | 'ground' | 'loss' | 'unsure' | 'sawn' | 'handling';
  readonly loss?: number;
  readonly kerf?: number;
  readonly tape?: string;
  /** Degrees Celsius. */
  readonly temperature?: number;
  readonly outOfPlace?: boolean;
  readonly crumbledMassLength?: { readonly value: number; readonly sd: number };
  readonly catcherMark?: { readonly depth: number; readonly byRun: string };
}

export interface WrittenSounding {
  readonly id: string;
  readonly afterRun: string;
  readonly depth: number;
  readonly sd: number;
}

export interface SeasonReadings {
  readonly runs: readonly WrittenRun[];
  readonly pieces: readonly WrittenPiece[];
  readonly soundings: readonly WrittenSounding[];
  readonly cableChecks?: readonly {
    readonly id: string;
    readonly afterRun: string;
    readonly counter: number;
    readonly mark: number;
    readonly sd: number;
  }[];
  readonly zeros?: readonly {
    readonly id: string;
    readonly height: number;
    readonly sd: number;
    readonly fromRun: string;
  }[];
  /** Degrees Celsius. */
  readonly holeTemperature?: number;
}

/** How a piece really met the one above it. */
export type Meeting = 'fits' | 'ground' | 'lost' | 'sawn' | 'handling';

export interface SeasonTruth {
  /** Bottom of the hole after each run; what lay on the bottom when it began; ice left standing after it. */
  readonly hole: readonly number[];
  readonly fill: readonly number[];
  readonly stub: readonly number[];
  /** Depth of the zero that the counter counts from at each run (0 where it never moved). */
  readonly zero: readonly number[];
  /** Of each piece that has a depth, in the order in which it lay in the hole. */
  readonly pieceIds: readonly string[];
  readonly top: readonly number[];
  readonly bottom: readonly number[];
  /** Ice that is gone above it, and how it really met the piece above. */
  readonly gap: readonly number[];
  readonly meeting: readonly Meeting[];
  /** Scale error of the cable at the first run, of the first logger's tape. */
  readonly cableScale: number;
  readonly tapeScale: number;
  /** Index of the first run of the second crew. */
  readonly secondCrewFrom: number;
}

export interface Season {
  readonly readings: SeasonReadings;
  readonly truth: SeasonTruth;
}
