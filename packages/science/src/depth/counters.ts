import type { Ordered } from './order.ts';
import type { CableData, DepthReadings, StrainTable } from './readings.ts';

/** Milliseconds of a year of 365.25 days. */
const YEAR = 31_557_600_000;

/**
 * What is added to counter readings and soundings to reduce them to true depths below the first zero at the reference
 * epoch. By run 1..n (`from`, `to`) and by sounding, metres.
 */
export interface Corrections {
  readonly from: Float64Array;
  readonly to: Float64Array;
  readonly sounding: Float64Array;
  /** Share of a length that strain took since the reference epoch, by run: lengths are multiplied by 1 less this. */
  readonly strained: Float64Array;
  /** Zero that a run's counter refers to, by run, and a sounding's: place among the zeros, -1 where there are none. */
  readonly zeroOfRun: Int32Array;
  readonly zeroOfSounding: Int32Array;
}

export const corrections = (o: Ordered): Corrections => {
  const { readings, runs, soundings } = o;
  const n = runs.length;
  const out: Corrections = {
    from: new Float64Array(n + 1),
    to: new Float64Array(n + 1),
    sounding: new Float64Array(soundings.length),
    strained: new Float64Array(n + 1),
    zeroOfRun: new Int32Array(n + 1).fill(-1),
    zeroOfSounding: new Int32Array(soundings.length).fill(-1),
  };
  const { cable, strain, zeros = [] } = readings;
  if (zeros.length > 0) {
    const from = zeros.map((zero) => o.place.get(zero.fromRun) as number);
    const byId = new Map(zeros.map((zero, j) => [zero.id, j]));
    const current = (r: number): number => {
      let found = 0;
      for (let j = 1; j < zeros.length; j++) if (from[j] <= r) found = j;
      return found;
    };
    const shift = (j: number): number => zeros[j].height - zeros[0].height;
    for (let r = 1; r <= n; r++) {
      const named = runs[r - 1].zero;
      const j = named === undefined ? current(r) : (byId.get(named) as number);
      out.zeroOfRun[r] = j;
      out.from[r] -= shift(j);
      out.to[r] -= shift(j);
    }
    soundings.forEach((sounding, i) => {
      const j =
        sounding.zero === undefined ? current(o.runOfSounding[i]) : (byId.get(sounding.zero) as number);
      out.zeroOfSounding[i] = j;
      out.sounding[i] -= shift(j);
    });
  }
  if (cable !== undefined) {
    for (let r = 1; r <= n; r++) {
      const { from, to, cableTemperature } = runs[r - 1];
      if (from !== undefined) out.from[r] += stretch(cable, from, cableTemperature);
      if (to !== undefined) out.to[r] += stretch(cable, to, cableTemperature);
    }
    soundings.forEach((sounding, i) => {
      const at = runs[o.runOfSounding[i] - 1];
      if (sounding.by === 'cable mark')
        out.sounding[i] += stretch(cable, sounding.depth, at.cableTemperature);
    });
  }
  if (strain === undefined) return out;
  const moved = displacement(strain);
  const years = (r: number): number =>
    ((runs[r - 1].epoch ?? readings.referenceEpoch ?? 0) - (readings.referenceEpoch ?? 0)) / YEAR;
  for (let r = 1; r <= n; r++) {
    const { from, to } = runs[r - 1];
    const since = years(r);
    if (since === 0) continue;
    if (from !== undefined) out.from[r] -= since * moved(from + out.from[r]);
    if (to !== undefined) out.to[r] -= since * moved(to + out.to[r]);
    out.strained[r] = since * rateAt(strain, o.nominal[r]);
  }
  soundings.forEach((sounding, i) => {
    out.sounding[i] -= years(o.runOfSounding[i]) * moved(sounding.depth + out.sounding[i]);
  });
  return out;
};

/**
 * How much longer a hanging cable is than the counter's length of it: by load and own weight
 * (F L + w L^2/2)/(EA), and by temperature, alpha L (T - T of calibration). Elementary mechanics.
 *
 * @param length counted, metres
 * @param temperature mean of the cable in the hole; none of the thermal part where it is left out
 */
export const stretch = (cable: CableData, length: number, temperature?: number): number =>
  (cable.load * length + 0.5 * cable.weightPerMetre * length * length) / cable.stiffness +
  (temperature === undefined ? 0 : cable.expansion * length * (temperature - cable.calibratedAt));

const rateAt = ({ depth, rate }: StrainTable, at: number): number => {
  const last = depth.length - 1;
  if (at <= depth[0]) return rate[0];
  for (let i = 1; i <= last; i++)
    if (at <= depth[i]) {
      const share = (at - depth[i - 1]) / (depth[i] - depth[i - 1]);
      return rate[i - 1] + share * (rate[i] - rate[i - 1]);
    }
  return rate[last];
};

/** How fast a depth below the zero grows by strain, metres a year: the rate summed from the zero down. */
const displacement = (strain: NonNullable<DepthReadings['strain']>): ((depth: number) => number) => {
  const { depth, rate } = strain;
  const sums = [rate[0] * depth[0]];
  for (let i = 1; i < depth.length; i++)
    sums.push(sums[i - 1] + ((rate[i] + rate[i - 1]) / 2) * (depth[i] - depth[i - 1]));
  return (at) => {
    if (at <= depth[0]) return rate[0] * at;
    let i = depth.length - 1;
    while (i > 0 && depth[i] > at) i--;
    return sums[i] + ((rate[i] + rateAt(strain, at)) / 2) * (at - depth[i]);
  };
};
