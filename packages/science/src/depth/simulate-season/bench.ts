import type { Random } from '../../random/index.ts';
import { type Core, KERF, type TruePiece } from './break-core.ts';
import type { Conditions, Logger } from './conditions.ts';
import { gamma2, heavy, logNormal, pick, rounded } from './draws.ts';
import type { Habits } from './habits.ts';
import type { WrittenPiece, WrittenRun } from './season.ts';
import { firstWords, moreWords } from './words.ts';

export interface LoggedCore {
  readonly pieces: readonly WrittenPiece[];
  readonly trayTape?: NonNullable<WrittenRun['trayTape']>;
  /** Chips frozen together, snow from the wall: it has a length but no depth. */
  readonly plug?: WrittenPiece;
}

/** Lost ice is estimated to half a centimetre, by eye. */
const ESTIMATE_STEP = 0.005;
const FIRN_TO = 60;
const MASS_SHARE = 0.05;
const REMEASURED_SHARE = 0.05;
const TRAY_SHARE = 0.6;
const PLUG_SHARE = 0.01;
/** Of one position on the tray tape; of faces pushed together that don't quite close. */
const TRAY_SD = 0.001;
const NOT_CLOSED = 0.0003;
/** Linear expansion of ice per kelvin (handbook value, from memory). */
const EXPANSION = 5e-5;
const MILLIMETRE = 0.001;

/** Logs the core of one run: measures it, and puts words to its breaks. */
export const logCore = (
  random: Random,
  core: Core,
  pieces: readonly TruePiece[],
  logger: Logger,
  c: Conditions,
  habits: Habits,
  crumbledShare: number,
): LoggedCore => {
  // a bias that changes from run to run: how the core was pushed together, where the tape began
  const runShort = 0.001 * heavy(random);
  const warmer = c.warmer + random.normal();
  const onTape = (length: number) => (length * (1 + EXPANSION * warmer)) / (1 + logger.tapeScale);
  const measured = (top: number, bottom: number): number => {
    const error = (top > FIRN_TO ? 0.003 : 0.005) * heavy(random) - logger.shortBy - runShort;
    return Math.max(MILLIMETRE, rounded(onTape(bottom - top) + error, MILLIMETRE));
  };
  const lost = (gap: number): number => {
    const guess = (gap + MILLIMETRE) * logger.lossFactor * logNormal(random, 1, 0.35);
    return Math.max(ESTIMATE_STEP, rounded(guess, ESTIMATE_STEP));
  };
  const words = habits.breakClasses ? moreWords : firstWords;
  const isTray = habits.trayTape && random.uniform() < TRAY_SHARE;
  const written = pieces.map(({ top, bottom, gap, meeting }, i): WrittenPiece => {
    const topBreak = pick(random, words[meeting]);
    const isCrumbled = random.uniform() < crumbledShare;
    const isAgain = habits.remeasured && random.uniform() < REMEASURED_SHARE;
    const truly = bottom - top;
    const massLength = () => ({
      value: Math.max(MILLIMETRE, rounded(truly * (1 + MASS_SHARE * heavy(random)), MILLIMETRE)),
      sd: Math.max(MILLIMETRE, rounded(MASS_SHARE * truly, MILLIMETRE)),
    });
    return {
      id: `${core.run}-${i + 1}`,
      run: core.run,
      topBreak,
      ...(isCrumbled || isTray ? {} : { length: measured(top, bottom) }),
      ...(isCrumbled && !isTray && habits.masses ? { crumbledMassLength: massLength() } : {}),
      ...(isAgain && !isCrumbled && !isTray ? { lengths: [measured(top, bottom)] } : {}),
      ...(topBreak === 'loss' ? { loss: meeting === 'sawn' ? KERF : lost(gap) } : {}),
      ...(topBreak === 'sawn' ? { kerf: KERF } : {}),
      ...(habits.tapes ? { tape: logger.tape } : {}),
      ...(habits.temperatures ? { temperature: rounded(c.holeTemperature + warmer, 0.1) } : {}),
    };
  });
  const plug: WrittenPiece = {
    id: `${core.run}-plug`,
    run: core.run,
    length: rounded(0.02 + gamma2(random, 0.06), MILLIMETRE),
    topBreak: 'unsure',
    outOfPlace: true,
  };
  return {
    pieces: written,
    ...(isTray ? { trayTape: { tape: logger.tape, breaks: onTray(random, pieces, written, onTape) } } : {}),
    ...(habits.breakClasses && random.uniform() < PLUG_SHARE ? { plug } : {}),
  };
};

/** Pieces pushed together on the tray, apart by what is thought to be lost; faces that touch are read once. */
const onTray = (
  random: Random,
  pieces: readonly TruePiece[],
  written: readonly WrittenPiece[],
  onTape: (length: number) => number,
): NonNullable<WrittenRun['trayTape']>['breaks'] => {
  const read = (at: number) => Math.max(0, rounded(at + TRAY_SD * heavy(random), MILLIMETRE));
  let at = 0.05;
  let last = read(at);
  return pieces.map(({ top, bottom }, i) => {
    const loss = i === 0 ? 0 : (written[i].loss ?? 0);
    at += loss + (i === 0 ? 0 : gamma2(random, NOT_CLOSED));
    const start = loss === 0 ? last : read(at);
    at += onTape(bottom - top);
    last = Math.max(start + MILLIMETRE, read(at));
    return { piece: written[i].id, top: start, bottom: rounded(last, MILLIMETRE) };
  });
};
