/** The invented crew, and who was on shift when. */
export const FIRST_CREW = ['HN', 'KT', 'MO', 'RA'] as const;
/** Came half-way, when KT and RA went home. */
export const SECOND_CREW = ['LV', 'SB'] as const;
export const CREW_CHANGE_DAY = 8;

export interface Shift {
  readonly driller: string;
  readonly logger: string;
  /** Minutes after eight in the morning. */
  readonly starts: number;
}

export const RUNS_PER_SHIFT = 10;
/** Minutes from one run to the next. */
export const TRIP = 26;
export const DAY = 1440;

/** The two shifts of a day. */
export const shiftsOn = (day: number): readonly [Shift, Shift] =>
  day < CREW_CHANGE_DAY
    ? [
        { driller: 'KT', logger: 'HN', starts: 25 },
        { driller: 'MO', logger: 'RA', starts: 450 },
      ]
    : [
        { driller: 'LV', logger: 'HN', starts: 25 },
        { driller: 'MO', logger: 'SB', starts: 450 },
      ];
