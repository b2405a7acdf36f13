/** Equations of everything that is read from above: counter, soundings, cable checks, zeros. */
import type { DepthAssumptions, DepthReadings } from '@firnbook/science/depth';
import type { Equations, Term } from './equations.ts';
import { endOf, type Moments, soundingOf, startOf } from './moments.ts';

export interface HoleUnknowns {
  readonly surface: number;
  /** Bottom of the hole after each run. */
  readonly hole: readonly number[];
}

export const observeCounter = (
  e: Equations,
  readings: DepthReadings,
  a: DepthAssumptions,
  { fill, looseFill }: Moments,
  { surface, hole }: HoleUnknowns,
): void => {
  const { runs } = readings;
  const place = new Map(runs.map((run, i) => [run.id, i]));
  const cable = e.known(0, a.cableScaleSd ** 2);
  const fillMean = e.known(fill.mean, fill.ofMean);
  const brought = new Set(readings.pieces.map((piece) => piece.run));
  /** Fill that the run after this one touches: how much more than the mean it is, and its variance. */
  const fillOn = (i: number) =>
    i < 0 || brought.has(runs[i].id)
      ? { more: 0, variance: fill.variance }
      : { more: looseFill.mean - fill.mean, variance: looseFill.variance };
  const zeroAt = zeros(e, readings, place);
  const sounded = new Set(readings.soundings.map((sounding) => place.get(sounding.afterRun)));
  const fillAfter = runs.map((_, i) => (sounded.has(i) ? e.unknown() : -1));
  const noise = a.readingSd ** 2 + a.readingStep ** 2 / 12;
  let drift = -1;
  let nominal = 0;
  runs.forEach((run, i) => {
    const before = i === 0 ? surface : hole[i - 1];
    const touched = i > 0 ? fillAfter[i - 1] : -1;
    // an offset that start and end share: its own unknown where it drifts, else in the variances below
    let offset: Term[] = [];
    let shared = a.tripOffsetSd ** 2;
    if (run.resets === false) {
      const here = e.unknown();
      if (drift < 0) e.observe([[here, 1]], 0, shared);
      else
        e.observe(
          [
            [here, 1],
            [drift, -1],
          ],
          0,
          a.offsetDriftSd ** 2,
        );
      drift = here;
      offset = [[here, 1]];
      shared = 0;
    } else drift = -1;
    const zero = zeroAt(i);
    const at = run.to ?? nominal + 0.8;
    const start: Term[] = [
      [before, 1],
      [cable, nominal],
      touched >= 0 ? [touched, -1] : [fillMean, -1],
      ...zero,
      ...offset,
    ];
    const end: Term[] = [[hole[i], 1], [cable, at], ...zero, ...offset];
    const { more, variance } = touched >= 0 ? { more: 0, variance: 0 } : fillOn(i - 1);
    const startVariance = noise + variance + shared;
    const endVariance = noise + shared;
    if (run.to !== undefined) e.observe(end, run.to, endVariance, [{ reading: endOf(run.id), by: 1 }]);
    if (run.from !== undefined) {
      // the start given the end: what of it the shared offset foretells
      const lean = run.to === undefined ? 0 : shared / endVariance;
      e.observe(
        [...start, ...end.map(([where, x]): Term => [where, -lean * x])],
        run.from + more - lean * (run.to ?? 0),
        startVariance - lean * shared,
        [
          { reading: startOf(run.id), by: 1 },
          { reading: endOf(run.id), by: -lean },
        ],
      );
    }
    nominal = at;
    if (fillAfter[i] >= 0) {
      const own = fillOn(i);
      e.observe(
        [
          [fillAfter[i], 1],
          [fillMean, -1],
        ],
        own.more,
        own.variance,
      );
    }
  });
  for (const sounding of readings.soundings) {
    const i = place.get(sounding.afterRun) as number;
    const terms: Term[] = [[hole[i], 1], [fillAfter[i], -1], ...zeroAt(i)];
    e.observe(terms, sounding.depth, sounding.sd ** 2, [{ reading: soundingOf(sounding.id), by: 1 }]);
  }
  for (const { counter, mark, sd } of readings.cableChecks ?? [])
    e.observe([[cable, mark]], counter - mark, sd ** 2 + noise + a.tripOffsetSd ** 2);
};

/** Terms by which a depth read at run i differs from one below the first zero. */
const zeros = (
  e: Equations,
  { zeros: levelled = [] }: DepthReadings,
  place: ReadonlyMap<string, number>,
): ((run: number) => Term[]) => {
  const later = levelled.slice(1).map((zero) => ({
    from: place.get(zero.fromRun) as number,
    // how much deeper this zero lies than the first
    depth: e.known(levelled[0].height - zero.height, levelled[0].sd ** 2 + zero.sd ** 2),
  }));
  return (run) => {
    const now = later.findLast((zero) => zero.from <= run);
    return now === undefined ? [] : [[now.depth, -1]];
  };
};
