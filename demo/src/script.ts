import { camp } from './camp.ts';
import { DAY, FIRST_CREW, RUNS_PER_SHIFT, shiftsOn, TRIP } from './crew.ts';
import { drill, TARE, type Trip, type TripPiece } from './ice.ts';
import { type HolePlan, plans, STORM_DAY } from './plan.ts';
import { temperatureAt } from './site.ts';
import { add, correct, log, logIn, type Step } from './step.ts';

export const PHONE = '01900000-0000-7000-8000-00000000000a';
export const TABLET = '01900000-0000-7000-8000-00000000000b';
export const COMPUTER = '01900000-0000-7000-8000-00000000000c';

/** The whole season in order of time, as the crew did it. */
export function script(seed: number): readonly Step[] {
  const steps = [
    ...opening(),
    ...camp(seed),
    ...plans.flatMap((plan) => [
      ...holeOpening(plan),
      ...drill(plan, seed).flatMap((trip) => tripSteps(plan, trip)),
    ]),
  ];
  // Stable: what happens in one minute stays in the order of writing.
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
        crew: FIRST_CREW.map((initials) => ({ initials })),
      }),
    },
    log({ ...tablet, minute: 2 }, 'device', { device: TABLET, name: "logger's tablet" }),
    log({ device: 'phone', by: 'KT', minute: 4 }, 'device', { device: PHONE, name: "driller's phone" }),
    log({ device: 'computer', by: 'HN', minute: 5 }, 'device', { device: COMPUTER, name: 'camp computer' }),
    log({ device: 'phone', by: 'KT', minute: 9, as: 'set-up 1' }, 'set-up', {
      name: 'long barrel, sharp cutters',
      barrel: '1.15 m',
      catcherHeight: '38 mm',
      coreDiameter: '98 mm',
      holeDiameter: '132 mm',
      cutters: 'three, 1.2 mm over the shoes',
      pitch: '4.5 mm',
    }),
  ];
}

const firstMinute = (plan: HolePlan): number => plan.firstDay * DAY;

function holeOpening(plan: HolePlan): readonly Step[] {
  const who = { device: 'tablet', by: 'HN' } as const;
  const hole = `hole ${plan.letter}`;
  const minute = firstMinute(plan);
  return [
    log({ ...who, minute, as: hole }, 'hole', { letter: plan.letter, core: plan.core }),
    logIn({ ...who, minute: minute + 3, as: `zero ${plan.letter}` }, hole, 'zero', () => ({
      surface: 'snow surface',
      method: 'board levelled over the hole',
    })),
    ...(plan.zeroMoved === undefined ? [] : moveZero(plan, plan.zeroMoved)),
  ];
}

/** Snow buried the board: it was set anew, and measured against the old one twice. */
function moveZero(plan: HolePlan, moved: { readonly run: number; readonly by: number }): readonly Step[] {
  const hole = `hole ${plan.letter}`;
  const minute = startOf(plan, moved.run) - 12;
  const height = `${Math.round(moved.by * 100)} cm`;
  return [
    logIn({ device: 'phone', by: 'LV', minute, as: `new zero ${plan.letter}` }, hole, 'zero', () => ({
      surface: 'board set anew on the new snow',
      height,
      method: 'tape to the old board before it was lifted',
    })),
    logIn({ device: 'tablet', by: 'HN', minute: minute + 4 }, hole, 'zero check', (id) => ({
      zero: id(`new zero ${plan.letter}`),
      height: `${(moved.by * 100 + 0.4).toFixed(1)} cm`,
      sd: '1 cm',
      method: 'level across to the stake',
    })),
  ];
}

/** Minute at which a run begins; nobody drills in the storm. */
function startOf(plan: HolePlan, run: number): number {
  const shift = Math.floor((run - 1) / RUNS_PER_SHIFT);
  const plain = plan.firstDay + Math.floor(shift / 2);
  const day = plan.firstDay < STORM_DAY && plain >= STORM_DAY ? plain + 1 : plain;
  return day * DAY + shiftsOn(day)[shift % 2 === 0 ? 0 : 1].starts + ((run - 1) % RUNS_PER_SHIFT) * TRIP;
}

function tripSteps(plan: HolePlan, trip: Trip): readonly Step[] {
  const start = startOf(plan, trip.run);
  const shift = Math.floor((trip.run - 1) / RUNS_PER_SHIFT);
  const { driller, logger } = shiftsOn(Math.floor(start / DAY))[shift % 2 === 0 ? 0 : 1];
  const drilling = { device: 'phone', by: driller } as const;
  const hole = `hole ${plan.letter}`;
  const run = `${plan.letter} run ${trip.run}`;
  const isSwapped = trip.run === plan.corrected;
  const slip = plan.slips.find((one) => one.run === trip.run && one.field === 'to');
  const to = `${(trip.to + (slip?.by ?? 0)).toFixed(2)} m`;
  const steps: Step[] = [
    logIn({ ...drilling, minute: start, as: run }, hole, 'run', (id) => ({
      number: String(trip.run),
      from: `${trip.from.toFixed(2)} m`,
      to: isSwapped ? swapped(to) : to,
      recovered: trip.run === plan.empty ? 'nothing' : 'core',
      ...(trip.run % RUNS_PER_SHIFT === 1 ? { setup: id('set-up 1') } : {}),
      ...(trip.run === plan.zeroMoved?.run ? { zero: id(`new zero ${plan.letter}`) } : {}),
      ...(trip.run === plan.stub ? { stub: '20 cm' } : {}),
      ...(trip.run % 5 === 0
        ? {
            current: `${trip.current} A`,
            rotation: `${trip.rotation} rpm`,
            breakLoad: `${trip.breakLoad} kN`,
            chips: `${trip.chips} kg`,
          }
        : {}),
      ...(trip.run % 10 === 0 ? { temperature: `${temperatureAt(trip.bottom).toFixed(1)} °C` } : {}),
    })),
    ...(trip.run === plan.wallSnow ? wallSnow(plan, trip, logger, start) : []),
    ...trip.pieces.flatMap((piece, index) =>
      pieceSteps(plan, trip, piece, index, logger, start + 8 + 3 * index),
    ),
  ];
  if (isTray(plan, trip.run)) steps.push(traySteps(plan, trip, logger, start + 19));
  if (isSwapped)
    steps.push(
      correct(
        { ...drilling, minute: start + 19 },
        run,
        { to },
        'digits swapped, read again from the counter',
      ),
    );
  if (trip.sounding !== null) {
    const depth = `${trip.sounding.toFixed(2)} m`;
    steps.push(
      logIn({ ...drilling, minute: start + 21 }, hole, 'sounding', (id) => ({
        afterRun: id(run),
        depth,
        sd: '1.5 cm',
      })),
    );
  }
  if (trip.check !== null) {
    const { mark, counter } = trip.check;
    steps.push(
      logIn({ ...drilling, minute: start + 23 }, hole, 'cable check', (id) => ({
        afterRun: id(run),
        mark: `${mark} m`,
        counter: `${counter.toFixed(2)} m`,
        sd: '1 cm',
      })),
    );
  }
  return steps;
}

const isTray = (plan: HolePlan, run: number): boolean =>
  plan.tray !== undefined && run >= plan.tray[0] && run <= plan.tray[1];

/** A plug of snow that the drill scraped off the wall: it has a length and no depth. */
function wallSnow(plan: HolePlan, trip: Trip, logger: string, start: number): readonly Step[] {
  const who = { device: 'tablet', by: logger, minute: start + 7 } as const;
  return [
    logIn(who, `hole ${plan.letter}`, 'piece', (id) => ({
      run: id(`${plan.letter} run ${trip.run}`),
      number: String(trip.pieces.length + 1),
      topBreak: 'loss',
      length: '11,0 cm',
      ice: 'wall snow',
    })),
  ];
}

function pieceSteps(
  plan: HolePlan,
  trip: Trip,
  piece: TripPiece,
  index: number,
  logger: string,
  minute: number,
): readonly Step[] {
  const isLate = trip.run === plan.foundLater && index === trip.pieces.length - 1;
  const who = { device: 'tablet', by: logger, minute: isLate ? minute + 2 * DAY : minute } as const;
  const name = `${plan.letter} piece ${trip.run}.${index + 1}`;
  const isCrumbled = trip.run === plan.crumbled;
  const slip = (field: string): number =>
    index === 0 ? (plan.slips.find((one) => one.run === trip.run && one.field === field)?.by ?? 0) : 0;
  // HN writes a comma, the others a point: both are at home in the book.
  const written = (value: number, places: number): string => {
    const text = value.toFixed(places);
    return logger === 'HN' ? text.replace('.', ',') : text;
  };
  const length = `${written((piece.length + slip('length')) * 100, 1)} cm`;
  return [
    logIn({ ...who, as: name }, `hole ${plan.letter}`, 'piece', (id) => ({
      run: id(`${plan.letter} run ${trip.run}`),
      number: String(index + 1),
      topBreak: piece.topBreak,
      ...(piece.loss === null ? {} : { loss: `${written(piece.loss * 100, 0)} cm` }),
      ...(isCrumbled || isTray(plan, trip.run) ? {} : { length }),
      ...(isCrumbled ? { ice: 'crumbled' } : {}),
      ...(isLate ? { found: 'later' } : {}),
      ...(trip.run === plan.orderUnsure && index > 0 ? { order: 'unsure' } : {}),
      ...(trip.run === plan.empty + 1 && index === 0
        ? {
            catcherMark: `${Math.round(scratchBelow(trip, piece) * 1000)} mm`,
            catcherRun: id(`${plan.letter} run ${plan.empty}`),
          }
        : {}),
    })),
    add({ ...who, minute: who.minute + 2 }, name, {
      mass: `${piece.mass} g`,
      tare: `${TARE} g`,
      diameterTop: `${written(piece.diameterTop + slip('diameterTop') * 1000, 1)} mm`,
      diameterBottom: `${written(piece.diameterBottom, 1)} mm`,
    }),
    ...piece.features.map((feature) =>
      logIn({ ...who, minute: who.minute + 2 }, `hole ${plan.letter}`, 'feature', (id) => ({
        piece: id(name),
        what: feature.what,
        end: 'top',
        at: `${Math.round(feature.at * 1000)} mm`,
        thickness: `${Math.round(feature.thickness * 1000)} mm`,
      })),
    ),
  ];
}

/** The catchers of the run that came up empty closed just above its bottom: 38 mm, where the ice of both runs met. */
const scratchBelow = (trip: Trip, piece: TripPiece): number =>
  Math.min(piece.bottom - piece.top - 0.01, Math.max(0.01, trip.scratch - piece.top));

/** Where each piece ends, read off one tape along the tray. */
function traySteps(plan: HolePlan, trip: Trip, logger: string, minute: number): Step {
  let at = 2;
  const positions = [at];
  for (const piece of trip.pieces) positions.push((at += piece.length * 100));
  return logIn({ device: 'tablet', by: logger, minute }, `hole ${plan.letter}`, 'tray', (id) => ({
    run: id(`${plan.letter} run ${trip.run}`),
    positions: `${positions.map((one) => one.toFixed(1)).join(' ')} cm`,
  }));
}

/** "7.54 m" for "7.45 m". */
const swapped = (text: string): string => text.replace(/(\d)(\d) m$/, '$2$1 m');
