import type { DepthAssumptions } from './assumptions.ts';
import type { Corrections } from './counters.ts';
import { DepthInputError } from './input-error.ts';
import type { Ordered } from './order.ts';

/** One length among several of the same piece that the others contradict. */
interface Outlier {
  readonly piece: number;
  readonly reading: number;
  readonly others: number;
}

/** Lengths as the adjustment takes them, by piece: all readings of one combined, reduced to the hole. Metres. */
export interface Lengths {
  /** NaN where nothing is known. */
  readonly value: Float64Array;
  readonly variance: Float64Array;
  /** Which tape's scale it carries: place in `tapes`; -1 where none does (length from mass). */
  readonly tape: Int16Array;
  readonly tapes: readonly string[];
  /** Covariance with the length of the piece above: they share a position on the tray tape. */
  readonly joint: Float64Array;
  /** 1 where the bias that a run's lengths share counts, 0 where its pieces were not measured one by one. */
  readonly biased: Uint8Array;
  /** A second length that contradicts the first, where two say different things and a third is missing; else NaN. */
  readonly second: Float64Array;
  /** What a length as written is multiplied by. */
  readonly reduction: Float64Array;
  readonly outliers: readonly Outlier[];
}

/** Two readings of one length agree within so many standard deviations of one. */
const AGREE = 4 * Math.SQRT2;
/** The tape of all pieces that name none. */
const USUAL = '';

export const lengths = (o: Ordered, a: DepthAssumptions, c: Corrections): Lengths => {
  const { pieces, readings } = o;
  const n = pieces.length;
  const tapes: string[] = [USUAL];
  const tapeOf = (name: string | undefined): number => {
    const known = tapes.indexOf(name ?? USUAL);
    return known >= 0 ? known : tapes.push(name as string) - 1;
  };
  const outliers: Outlier[] = [];
  const out: Lengths = {
    value: new Float64Array(n).fill(Number.NaN),
    variance: new Float64Array(n),
    tape: new Int16Array(n),
    tapes,
    joint: new Float64Array(n),
    biased: new Uint8Array(n).fill(1),
    second: new Float64Array(n).fill(Number.NaN),
    reduction: new Float64Array(n),
    outliers,
  };
  for (let i = 0; i < n; i++) {
    const piece = pieces[i];
    const run = o.runOfPiece[i];
    const { holeTemperature } = readings;
    const warmed =
      piece.temperature === undefined || holeTemperature === undefined
        ? 0
        : a.iceExpansion * (holeTemperature - piece.temperature);
    const reduction = (1 + warmed) * (1 - c.strained[run]);
    out.reduction[i] = reduction;
    const sd = o.nominal[run] > a.firnTo ? a.lengthSdIce : a.lengthSdFirn;
    out.variance[i] = sd * sd;
    if (piece.tape !== undefined) out.tape[i] = tapeOf(piece.tape);
    if (piece.lengths === undefined || piece.lengths.length === 0) {
      if (piece.length !== undefined) out.value[i] = piece.length * reduction;
    } else combine(i, piece.length, piece.lengths, sd, out, outliers);
    const mass = piece.crumbledMassLength;
    if (mass === undefined) continue;
    if (Number.isNaN(out.value[i])) {
      out.value[i] = mass.value * reduction;
      out.variance[i] = mass.sd ** 2;
      out.tape[i] = -1;
      out.biased[i] = 0;
    } else {
      const weight = out.variance[i] / (out.variance[i] + mass.sd ** 2);
      out.value[i] += weight * (mass.value * reduction - out.value[i]);
      out.variance[i] *= 1 - weight;
    }
  }
  for (const run of o.runs) if (run.trayTape !== undefined) layOnTray(run, o, a, out, tapeOf);
  return out;
};

/** Several readings of one length: the mean of those that agree, where they are more than the others. */
const combine = (
  i: number,
  length: number | undefined,
  again: readonly number[],
  sd: number,
  out: Lengths,
  outliers: Outlier[],
): void => {
  const all = length === undefined ? [...again] : [length, ...again];
  const near = (one: number): number[] => all.filter((other) => Math.abs(other - one) <= AGREE * sd);
  const mean = (some: readonly number[]): number => some.reduce((x, y) => x + y, 0) / some.length;
  let best = near(all[0]);
  for (const one of all) if (near(one).length > best.length) best = near(one);
  out.value[i] = mean(best) * out.reduction[i];
  out.variance[i] = (sd * sd) / best.length;
  const others = all.filter((one) => !best.includes(one));
  if (best.length > others.length) {
    for (const reading of others) outliers.push({ piece: i, reading, others: mean(best) });
    return;
  }
  out.second[i] = mean(others) * out.reduction[i];
  out.variance[i] = sd * sd;
};

/** Lengths from positions along one tape: a position that two pieces share ties their errors. */
const layOnTray = (
  run: Ordered['runs'][number],
  o: Ordered,
  a: DepthAssumptions,
  out: Lengths,
  tapeOf: (name: string | undefined) => number,
): void => {
  const tray = run.trayTape as NonNullable<typeof run.trayTape>;
  const sd = tray.sd ?? a.traySd;
  const r = o.place.get(run.id) as number;
  const at = new Map(tray.breaks.map((one) => [one.piece, one]));
  let known = 0;
  for (let i = o.first[r]; i < o.first[r + 1]; i++) {
    const here = at.get(o.pieces[i].id);
    if (here === undefined) continue;
    known++;
    out.value[i] = (here.bottom - here.top) * out.reduction[i];
    out.second[i] = Number.NaN;
    out.variance[i] = 2 * sd * sd;
    out.tape[i] = tapeOf(tray.tape ?? o.pieces[i].tape);
    out.biased[i] = 0;
    const above = i > o.first[r] ? at.get(o.pieces[i - 1].id) : undefined;
    if (above !== undefined && above.bottom === here.top) out.joint[i] = -sd * sd;
  }
  // pieces that lie on the tray but were found to belong to a neighbouring run still count there
  const strangers = tray.breaks.filter(({ piece }) => !o.readings.pieces.some((one) => one.id === piece));
  if (known < tray.breaks.length && strangers.length > 0)
    throw new DepthInputError(
      `run ${run.id}`,
      `piece ${strangers[0].piece} on its tray tape is not among the pieces; add it or correct the name`,
    );
};
