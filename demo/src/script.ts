import type { Command, Readings } from '@firnbook/campaign';
import { EMPTY_AT, type Trip, type TripPiece } from './ice.ts';

/** One thing that somebody at the Ceredin Saddle does. All of it is invented. */
export interface Step {
  readonly device: 'phone' | 'tablet';
  readonly by: string;
  /** Minutes since the campaign was opened. */
  readonly minute: number;
  /** What it is called by later steps. */
  readonly as?: string;
  readonly command: (id: (called: string) => string) => Command;
}

const CREW = ['HN', 'KT', 'MO', 'RA'] as const;

/** The piece whose length was typed 10 cm too long; left in the demo for the crew to find. */
export const SLIP = { run: 31, piece: 1, size: 0.1 } as const;
/** The run whose end was typed with two digits swapped, and corrected afterwards. */
export const CORRECTED = { run: 9 } as const;

interface Shift {
  readonly driller: string;
  readonly logger: string;
}

const days: Shift = { driller: 'KT', logger: 'HN' };
const evenings: Shift = { driller: 'MO', logger: 'RA' };

/** Minutes from one run to the next, and when a shift of nine runs begins. */
const TRIP = 27;
const SHIFT_STARTS = [55, 480, 1490, 1920];
const RUNS_PER_SHIFT = 9;

export function script(trips: readonly Trip[]): readonly Step[] {
  const steps: Step[] = [...opening()];
  for (const trip of trips) steps.push(...tripSteps(trip));
  return steps.sort((a, b) => a.minute - b.minute);
}

function opening(): readonly Step[] {
  const tablet = { device: 'tablet', by: 'HN' } as const;
  return [
    {
      ...tablet,
      minute: 0,
      as: 'campaign',
      command: () => ({
        do: 'open campaign',
        readings: {
          name: 'Ceredin Saddle',
          invented: 'yes',
          note: 'An invented campaign, made up to show the book. There is no such place, core or crew.',
        },
        crew: CREW.map((initials) => ({ initials })),
      }),
    },
    log({ ...tablet, minute: 2 }, 'device', { device: TABLET, name: "logger's tablet" }),
    log({ device: 'phone', by: 'KT', minute: 4 }, 'device', { device: PHONE, name: "driller's phone" }),
    log({ ...tablet, minute: 10, as: 'hole' }, 'hole', { letter: 'B', core: 'CER-B' }),
    {
      ...tablet,
      minute: 14,
      command: (id) => ({
        do: 'log',
        kind: 'zero',
        hole: id('hole'),
        readings: { surface: 'snow surface', method: 'board levelled over the hole' },
      }),
    },
  ];
}

export const PHONE = '01900000-0000-7000-8000-00000000000a';
export const TABLET = '01900000-0000-7000-8000-00000000000b';

function log(step: Omit<Step, 'command'>, kind: string, readings: Readings): Step {
  return { ...step, command: () => ({ do: 'log', kind, readings }) };
}

function tripSteps(trip: Trip): readonly Step[] {
  const shiftIndex = Math.floor((trip.run - 1) / RUNS_PER_SHIFT);
  const shift = shiftIndex % 2 === 0 ? days : evenings;
  const start = SHIFT_STARTS[shiftIndex]! + ((trip.run - 1) % RUNS_PER_SHIFT) * TRIP;
  const driller = { device: 'phone', by: shift.driller } as const;
  const logger = { device: 'tablet', by: shift.logger } as const;
  const isSwapped = trip.run === CORRECTED.run;
  const to = `${trip.to.toFixed(2)} m`;
  const run = `run ${trip.run}`;
  const steps: Step[] = [
    {
      ...driller,
      minute: start,
      as: run,
      command: (id) => ({
        do: 'log',
        kind: 'run',
        hole: id('hole'),
        readings: {
          number: String(trip.run),
          from: `${trip.from.toFixed(2)} m`,
          to: isSwapped ? swapped(to) : to,
          recovered: trip.run === EMPTY_AT ? 'nothing' : 'core',
        },
      }),
    },
    ...trip.pieces.map(
      (piece, index): Step => ({
        ...logger,
        minute: start + 9 + 3 * index,
        command: (id) => ({
          do: 'log',
          kind: 'piece',
          hole: id('hole'),
          run: id(run),
          readings: pieceReadings(trip.run, piece, index + 1, shift.logger),
        }),
      }),
    ),
  ];
  if (isSwapped)
    steps.push({
      ...driller,
      minute: start + 19,
      command: (id) => ({
        do: 'correct',
        thing: id(run),
        readings: { to },
        reason: 'digits swapped, read again from the counter',
      }),
    });
  const { sounding } = trip;
  if (sounding !== null)
    steps.push({
      ...driller,
      minute: start + 21,
      command: (id) => ({
        do: 'log',
        kind: 'sounding',
        hole: id('hole'),
        readings: { afterRun: id(run), depth: `${sounding.toFixed(2)} m`, sd: '1.5 cm' },
      }),
    });
  return steps;
}

function pieceReadings(run: number, piece: TripPiece, number: number, logger: string): Readings {
  const isSlip = run === SLIP.run && number === SLIP.piece;
  // HN writes a comma, RA a point: both are at home in the book.
  const cm = (metres: number, places: number): string => {
    const text = (metres * 100).toFixed(places);
    return `${logger === 'HN' ? text.replace('.', ',') : text} cm`;
  };
  return {
    number: String(number),
    topBreak: piece.topBreak,
    ...(piece.loss === null ? {} : { loss: cm(piece.loss, 0) }),
    length: cm(piece.length + (isSlip ? SLIP.size : 0), 1),
  };
}

/** "7.54 m" for "7.45 m". */
const swapped = (text: string): string => text.replace(/(\d)(\d) m$/, '$2$1 m');
