import type { Random } from '../../random/index.ts';
import { logCore } from './bench.ts';
import { breakCore, type TruePiece } from './break-core.ts';
import { catcherMark } from './catcher.ts';
import { conditions } from './conditions.ts';
import { readCounter } from './counter.ts';
import { drillHole } from './drill.ts';
import { drawHabits } from './habits.ts';
import { type SeasonPlan, usualPlan } from './plan.ts';
import type { Season, WrittenPiece, WrittenRun } from './season.ts';
import { sound } from './sounding.ts';

/**
 * An invented season: a hole is drilled, its core is logged, and what really happened is kept beside what was
 * written down. It knows nothing of the solver and keeps none of its assumptions: errors have heavier tails, chips and
 * stubs are not exponential, a logger's tape and habit stay wrong for weeks, words for breaks are sometimes the wrong
 * ones, the zero moves, the crew changes half-way. docs/method/depth-acceptance.md lists what is simulated.
 * All numbers are invented; depths in metres.
 */
export const simulateSeason = (random: Random, plan: SeasonPlan = usualPlan): Season => {
  const habits = plan.habits === 'drawn' ? drawHabits(random) : plan.habits;
  const c = conditions(random, plan.runs);
  const trips = drillHole(random, plan, c);
  const counter = readCounter(random, trips, plan, habits, c);
  const runs: WrittenRun[] = [];
  const pieces: WrittenPiece[] = [];
  const inPlace: (TruePiece & { readonly id: string })[] = [];
  let firstAlone = 0;
  trips.forEach((trip, r) => {
    const run = counter.runs[r];
    if (trip.core === undefined) {
      runs.push(run);
      return;
    }
    const core = { run: trip.id, ...trip.core };
    const broken = breakCore(random, core, c, plan.mostPieces);
    const logger = c.loggers[r < c.secondCrewFrom ? 0 : 1];
    const logged = logCore(random, core, broken, logger, c, habits, plan.missedShare / 2);
    runs.push(logged.trayTape === undefined ? run : { ...run, trayTape: logged.trayTape });
    broken.forEach((piece, i) => {
      const mark = habits.catcherMarks
        ? catcherMark(random, trips, r, firstAlone, piece, c.catcherHeight)
        : undefined;
      inPlace.push({ ...piece, id: logged.pieces[i].id });
      pieces.push({ ...logged.pieces[i], ...(mark === undefined ? {} : { catcherMark: mark }) });
    });
    if (logged.plug !== undefined) pieces.push(logged.plug);
    firstAlone = r;
  });
  return {
    readings: {
      runs,
      pieces,
      soundings: sound(random, trips, counter.zero, plan.soundings, c.soundingTapeScale),
      ...(habits.cableChecks ? { cableChecks: counter.cableChecks } : {}),
      ...(habits.zeros ? { zeros: counter.zeros } : {}),
      ...(habits.temperatures ? { holeTemperature: c.holeTemperature } : {}),
    },
    truth: {
      hole: trips.map((trip) => trip.bottom),
      fill: trips.map((trip) => trip.fill),
      stub: trips.map((trip) => trip.stub),
      zero: counter.zero,
      pieceIds: inPlace.map((piece) => piece.id),
      top: inPlace.map((piece) => piece.top),
      bottom: inPlace.map((piece) => piece.bottom),
      gap: inPlace.map((piece) => piece.gap),
      meeting: inPlace.map((piece) => piece.meeting),
      cableScale: c.cableScale,
      tapeScale: c.loggers[0].tapeScale,
      secondCrewFrom: c.secondCrewFrom,
    },
  };
};
