import type { Kelvin, Kilograms, Metres, Ratio } from '../units.ts';
import type { Wedge } from './wedge.ts';

/** One place along a piece: a diameter, or the two of an elliptic section, across each other. */
export type DiameterReading = Metres | readonly [Metres, Metres];

/** What was measured of one piece of core. */
export interface PieceReadings {
  /** What to call it: "12-1". */
  readonly id: string;
  /** Cutters (with caliper) that its diameter came from: their common error does not average out. */
  readonly cutterSet: string;
  /** With whatever it lay in. Absent where it was not weighed. */
  readonly gross?: Kilograms;
  /** Tray or bag; absent where the balance was set to zero with it. */
  readonly tare?: Kilograms;
  /** One or several, around the piece. */
  readonly lengths: readonly Metres[];
  /** None where the cutter set's will do. */
  readonly diameters: readonly DiameterReading[];
  /** Of its two ends, how many are flat saw cuts: 0, 1 or 2. */
  readonly sawnEnds: 0 | 1 | 2;
  /** Sawn off between measuring its length and weighing, kerf included. */
  readonly sawnOff?: Metres;
  readonly wedges?: readonly Wedge[];
  /** Missing share of the volume, as somebody judged it, besides the wedges. */
  readonly missingShare?: Ratio;
  /** When measured; else as assumed. */
  readonly temperature?: Kelvin;
  /** Where it lay, on one depth scale. */
  readonly top?: Metres;
  readonly bottom?: Metres;
}

/** Area-equivalent diameter of one place: an ellipse has the area of a circle of sqrt(d1 d2). */
export const roundDiameter = (reading: DiameterReading): Metres =>
  typeof reading === 'number' ? reading : Math.sqrt(reading[0] * reading[1]);
