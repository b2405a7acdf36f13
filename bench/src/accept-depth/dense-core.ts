/** Equations of the core: lengths, gaps, catcher marks, and how it lies above the bottom of the hole. */
import type { DepthAssumptions, DepthReadings } from '@firnbook/science/depth';
import type { HoleUnknowns } from './dense-counter.ts';
import type { Equations, Term } from './equations.ts';
import { coreOf, type Moments } from './moments.ts';

/** Gap above a piece, or its length: fixed + terms, give or take. */
export interface Part {
  readonly piece: string;
  readonly isGap: boolean;
  readonly fixed: number;
  readonly terms: readonly Term[];
  readonly variance: number;
  /** Of the bias that a run's lengths share: 1 where they were measured one by one. */
  readonly bias: number;
}

/** Core between two places whose depths are unknowns. */
export interface Way {
  readonly from: number;
  readonly to: number;
  readonly parts: readonly Part[];
}

/** Tolerances of the model that are no settings: docs/method/depth.md. */
const EMPTY_STUB = 1;
const UNKNOWN_LENGTH = 0.5;
const LOSS_FACTOR_SD = 0.1;
const FIT_MEAN_SHARE = 0.05;

type Piece = DepthReadings['pieces'][number];

export const observeCore = (
  e: Equations,
  readings: DepthReadings,
  a: DepthAssumptions,
  m: Moments,
  { surface, hole }: HoleUnknowns,
): Way[] => {
  const place = new Map(readings.runs.map((run, i) => [run.id, i]));
  const shared = {
    fit: e.known(a.fitGapMax / 2, (FIT_MEAN_SHARE * a.fitGapMax) ** 2),
    loss: e.known(1, LOSS_FACTOR_SD ** 2),
    stub: e.known(m.stub.mean, m.stub.ofMean),
    unsure: e.known(m.unsure.mean, m.unsure.ofMean),
    ground: e.known(m.ground.mean, m.ground.ofMean),
  };
  const tapes = new Map<string, number>();
  const tapeOf = (name = ''): number => {
    const known = tapes.get(name) ?? e.known(0, a.tapeScaleSd ** 2);
    tapes.set(name, known);
    return known;
  };
  const gapOf = (piece: Piece): Part => {
    const part = { piece: piece.id, isGap: true, fixed: 0, terms: [] as Term[], variance: 1e-8, bias: 0 };
    switch (piece.topBreak) {
      case 'fits':
        return { ...part, terms: [[shared.fit, 1]], variance: a.fitGapMax ** 2 / 12 };
      case 'handling':
        return part;
      case 'sawn':
        return {
          ...part,
          fixed: piece.kerf ?? a.kerf,
          variance: (piece.kerf === undefined ? a.kerfSd : a.givenKerfSd) ** 2,
        };
      case 'ground':
        return { ...part, terms: [[shared.ground, 1]], variance: m.ground.variance };
      case 'loss':
        if (piece.loss !== undefined) {
          const variance = (a.lossSd + a.lossShareSd * piece.loss) ** 2;
          return { ...part, terms: [[shared.loss, piece.loss]], variance };
        }
        return { ...part, terms: [[shared.unsure, 1]], variance: m.unsure.variance };
      default:
        return { ...part, terms: [[shared.unsure, 1]], variance: m.unsure.variance };
    }
  };
  const lengthOf = (piece: Piece, depth: number): Part => {
    const run = readings.runs[place.get(piece.run) as number];
    const onTray = run.trayTape?.breaks.find((one) => one.piece === piece.id);
    const part = { piece: piece.id, isGap: false, terms: [] as Term[], bias: 1 };
    const hole = readings.holeTemperature;
    const cooled =
      hole === undefined || piece.temperature === undefined
        ? 1
        : 1 + a.iceExpansion * (hole - piece.temperature);
    if (onTray !== undefined) {
      const length = onTray.bottom - onTray.top;
      const sd = run.trayTape?.sd ?? a.traySd;
      return {
        ...part,
        fixed: length * cooled,
        terms: [[tapeOf(run.trayTape?.tape), length]],
        variance: 2 * sd ** 2,
        bias: 0,
      };
    }
    const sd = depth > a.firnTo ? a.lengthSdIce : a.lengthSdFirn;
    const read = [...(piece.length === undefined ? [] : [piece.length]), ...(piece.lengths ?? [])];
    if (read.length > 0) {
      const length = read.reduce((sum, one) => sum + one, 0) / read.length;
      return {
        ...part,
        fixed: length * cooled,
        terms: [[tapeOf(piece.tape), length]],
        variance: sd ** 2 / read.length,
      };
    }
    const mass = piece.crumbledMassLength;
    return mass === undefined
      ? { ...part, fixed: UNKNOWN_LENGTH, variance: UNKNOWN_LENGTH ** 2, bias: 0 }
      : { ...part, fixed: mass.value * cooled, variance: mass.sd ** 2, bias: 0 };
  };

  const ways: Way[] = [];
  let above = surface;
  let depth = 0;
  readings.runs.forEach((run, i) => {
    const core = readings.pieces.filter((piece) => piece.run === run.id && piece.outOfPlace !== true);
    if (core.length === 0) {
      e.observe(
        [
          [hole[i], 1],
          [above, -1],
        ],
        EMPTY_STUB,
        EMPTY_STUB ** 2,
      );
      return;
    }
    const marked = core.some((piece) => piece.catcherMark !== undefined);
    // where marks part the run, its ways share the run's bias
    const runBias = marked ? e.known(0, a.runBiasSd ** 2) : -1;
    let parts: Part[] = [];
    const close = (to: number) => {
      observeWay(e, { from: above, to, parts }, runBias, a.runBiasSd);
      ways.push({ from: above, to, parts });
      above = to;
      parts = [];
    };
    for (const piece of core) {
      parts.push(gapOf(piece));
      const mark = piece.catcherMark;
      const by = mark === undefined ? undefined : place.get(mark.byRun);
      if (mark !== undefined && by !== undefined) {
        const top = e.unknown();
        close(top);
        const height = readings.runs[by].catcherHeight;
        const variance = (mark.sd ?? a.catcherMarkSd) ** 2 + (height === undefined ? a.stubMean ** 2 : 0);
        e.observe(
          [
            [hole[by], 1],
            [top, -1],
          ],
          mark.depth + (height ?? a.stubMean),
          variance,
        );
      }
      parts.push(lengthOf(piece, depth));
      depth += parts[parts.length - 1].fixed;
    }
    close(e.unknown());
    e.observe(
      [
        [hole[i], 1],
        [above, -1],
        [shared.stub, -1],
      ],
      0,
      m.stub.variance,
    );
  });
  return ways;
};

const observeWay = (e: Equations, { from, to, parts }: Way, runBias: number, runBiasSd: number): void => {
  const sum = (of: (part: Part) => number) => parts.reduce((all, part) => all + of(part), 0);
  const biased = sum((part) => part.bias);
  const terms: Term[] = [
    [to, 1],
    [from, -1],
    ...parts.flatMap((part) => part.terms.map(([where, x]): Term => [where, -x])),
    ...(runBias < 0 ? [] : [[runBias, -biased] as const]),
  ];
  const own = sum((part) => part.variance) + (runBias < 0 ? (biased * runBiasSd) ** 2 : 0);
  e.observe(
    terms,
    sum((part) => part.fixed),
    own,
    parts.map((part) => ({ reading: coreOf(part.piece), by: part.isGap ? 0 : 1 })),
  );
};
