import type { Letter } from './site.ts';

/** What happens at one invented hole: everything out of the ordinary, each at its run. */
export interface HolePlan {
  readonly letter: Letter;
  readonly core: string;
  /** Days since the campaign was opened. */
  readonly firstDay: number;
  /** Error of the counter's scale; the crew does not know it. */
  readonly cableScale: number;
  /** Drilled to, metres. */
  readonly target: number;
  /** Runs that came up without core; the next one brought its ice. */
  readonly empty: number;
  /** Left a long stub behind that the next run brought. */
  readonly stub: number;
  /** Ice ground away at the top of these. */
  readonly lost: readonly number[];
  /** After these the hole was sounded by weighted tape, or the cable held against its marks. */
  readonly sounded: readonly number[];
  readonly checked: readonly number[];
  /** Assembled on the tray tape and read off it, from run to run. */
  readonly tray?: readonly [number, number];
  /** From this run on the counter was set by a zero that stood higher by so much. */
  readonly zeroMoved?: { readonly run: number; readonly by: number };
  /** Digits of the end swapped, seen and corrected on the spot. */
  readonly corrected?: number;
  /** Typed wrong and left for the crew to find: in a length, or in the counter's end, metres. */
  readonly slips: readonly {
    readonly run: number;
    readonly field: 'length' | 'to' | 'diameterTop';
    readonly by: number;
  }[];
  /** Whose last piece was found two days later under the bench. */
  readonly foundLater?: number;
  /** Crumbled: no length, only a mass. */
  readonly crumbled?: number;
  /** Brought snow off the wall with it. */
  readonly wallSnow?: number;
  /** Whose two pieces may have changed places. */
  readonly orderUnsure?: number;
}

/** Day of the storm at hole B, on which nobody drilled. */
export const STORM_DAY = 11;

export const plans: readonly HolePlan[] = [
  {
    letter: 'A',
    core: 'CER-A',
    firstDay: 1,
    cableScale: 0.0016,
    target: 110,
    empty: 52,
    stub: 33,
    lost: [14, 71, 96],
    sounded: [25, 50, 75, 100, 125],
    checked: [46, 92],
    slips: [{ run: 63, field: 'to', by: 1 }],
    wallSnow: 5,
  },
  {
    letter: 'B',
    core: 'CER-B',
    firstDay: 8,
    cableScale: 0.0016,
    target: 110,
    empty: 27,
    stub: 20,
    lost: [14, 88],
    sounded: [18, 36, 60, 90, 120],
    checked: [44, 90],
    zeroMoved: { run: 61, by: 0.31 },
    corrected: 9,
    slips: [
      { run: 31, field: 'length', by: 0.1 },
      { run: 47, field: 'diameterTop', by: -0.009 },
    ],
    foundLater: 58,
  },
  {
    letter: 'C',
    core: 'CER-C',
    firstDay: 16,
    cableScale: 0.0021,
    target: 110,
    empty: 74,
    stub: 41,
    lost: [29, 67],
    sounded: [30, 60, 95, 125],
    checked: [50, 100],
    tray: [54, 60],
    slips: [{ run: 83, field: 'length', by: -0.1 }],
    crumbled: 88,
    orderUnsure: 92,
  },
];
