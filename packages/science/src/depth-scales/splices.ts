import type { Metres } from '../units.ts';
import { DepthScaleError, type DepthWithError } from './depth.ts';

/** Depth of any ice in `of` = depth of the same ice in `on` + offset. */
export interface Splice {
  readonly id: string;
  /** Names of records: a hole, a pit, a hand-augered top. */
  readonly of: string;
  readonly on: string;
  readonly offset: DepthWithError;
}

/** Splices that go round in a circle must come back to where they began. */
export interface Loop {
  /** Splices round the loop, in order. */
  readonly splices: readonly string[];
  /** What is left after going round once, and its standard deviation. */
  readonly misclosure: DepthWithError;
  /** Whether what is left is within 3 of its standard deviations. */
  readonly closes: boolean;
}

/** Records joined to one of them. */
export interface Joined {
  /** The record whose depths are the composite ones. */
  readonly reference: string;
  /** For every record that is joined: its depth less the composite depth of the same ice. */
  readonly offsets: ReadonlyMap<string, DepthWithError>;
  /** Records of the splices that no chain of splices joins to the reference. */
  readonly apart: readonly string[];
  readonly loops: readonly Loop[];
}

const CLOSES = 3;

/**
 * Records joined by splices, to the depths of one of them. A chain adds up its offsets and variances; where splices go
 * round in circles all are adjusted together by least squares, as a levelling net is, and every loop is checked.
 *
 * @throws DepthScaleError for a splice of a record on itself, an offset that is not a number, or a standard deviation
 *   that is not above 0
 */
export const joinRecords = (splices: readonly Splice[], reference: string): Joined => {
  for (const { id, of, on, offset } of splices) {
    if (of === on)
      throw new DepthScaleError(`Splice ${id} joins ${of} to itself: name the other record, or take it out.`);
    if (!Number.isFinite(offset.value) || !(offset.sd > 0) || !Number.isFinite(offset.sd))
      throw new DepthScaleError(
        `Splice ${id} needs an offset and a standard deviation above 0: estimate it, a few centimetres at least.`,
      );
  }
  const ways = tree(splices, reference);
  const names = [...ways.keys()];
  const joined = splices.filter(({ of }) => ways.has(of));
  return {
    reference,
    offsets: adjusted(names, joined),
    apart: [...new Set(splices.flatMap(({ of, on }) => [of, on]))].filter((name) => !ways.has(name)),
    loops: loopsOf(joined, ways),
  };
};

/** A step from a record to the next: forwards (`on` to `of`) adds the offset. */
interface Step {
  readonly splice: Splice;
  readonly sign: 1 | -1;
}

/** Shortest way of splices from the reference to every record that has one. */
const tree = (splices: readonly Splice[], reference: string): ReadonlyMap<string, readonly Step[]> => {
  const ways = new Map<string, readonly Step[]>([[reference, []]]);
  const waiting = [reference];
  for (let at = waiting.shift(); at !== undefined; at = waiting.shift()) {
    const way = ways.get(at) ?? [];
    for (const splice of splices) {
      const sign = splice.on === at ? 1 : -1;
      const next = sign === 1 ? splice.of : splice.on;
      if ((splice.on !== at && splice.of !== at) || ways.has(next)) continue;
      ways.set(next, [...way, { splice, sign }]);
      waiting.push(next);
    }
  }
  return ways;
};

const loopsOf = (splices: readonly Splice[], ways: ReadonlyMap<string, readonly Step[]>): readonly Loop[] => {
  const inTree = new Set([...ways.values()].flat().map(({ splice }) => splice));
  return splices
    .filter((splice) => !inTree.has(splice))
    .map((splice) => {
      const there = ways.get(splice.on) ?? [];
      const back = ways.get(splice.of) ?? [];
      let shared = 0;
      while (shared < there.length && there[shared]?.splice === back[shared]?.splice) shared++;
      const down = there.slice(shared);
      const up = back
        .slice(shared)
        .reverse()
        .map((step): Step => ({ splice: step.splice, sign: step.sign === 1 ? -1 : 1 }));
      const round: readonly Step[] = [...down, { splice, sign: 1 }, ...up];
      let value = 0;
      let variance = 0;
      for (const step of round) {
        value += step.sign * step.splice.offset.value;
        variance += step.splice.offset.sd ** 2;
      }
      const sd = Math.sqrt(variance);
      return {
        splices: round.map((step) => step.splice.id),
        misclosure: { value, sd },
        closes: Math.abs(value) <= CLOSES * sd,
      };
    });
};

/** Weighted least squares by normal equations: a campaign joins a handful of records. */
const adjusted = (
  names: readonly string[],
  splices: readonly Splice[],
): ReadonlyMap<string, DepthWithError> => {
  const n = names.length - 1;
  const at = new Map(names.map((name, i) => [name, i - 1]));
  const matrix = Array.from({ length: n }, () => new Float64Array(2 * n + 1));
  for (let i = 0; i < n; i++) matrix[i][n + 1 + i] = 1;
  for (const { of, on, offset } of splices) {
    const weight = 1 / offset.sd ** 2;
    const i = at.get(of) as number;
    const j = at.get(on) as number;
    if (i >= 0) {
      matrix[i][i] += weight;
      matrix[i][n] += weight * offset.value;
    }
    if (j >= 0) {
      matrix[j][j] += weight;
      matrix[j][n] -= weight * offset.value;
    }
    if (i >= 0 && j >= 0) {
      matrix[i][j] -= weight;
      matrix[j][i] -= weight;
    }
  }
  // Gauss-Jordan; the matrix is positive definite, so that it needs no pivots
  for (let k = 0; k < n; k++) {
    const pivot = matrix[k][k];
    for (let c = 0; c <= 2 * n; c++) matrix[k][c] /= pivot;
    for (let r = 0; r < n; r++) {
      const factor = matrix[r][k];
      if (r === k || factor === 0) continue;
      for (let c = 0; c <= 2 * n; c++) matrix[r][c] -= factor * matrix[k][c];
    }
  }
  return new Map(
    names.map((name, i) => [
      name,
      i === 0 ? { value: 0, sd: 0 } : { value: matrix[i - 1][n], sd: Math.sqrt(matrix[i - 1][n + i]) },
    ]),
  );
};

/** Which record the composite is read from, down to a composite depth. */
export interface Stretch {
  readonly record: string;
  readonly to: Metres;
}

const offsetIn = (joined: Joined, record: string): DepthWithError => {
  const offset = joined.offsets.get(record);
  if (offset === undefined)
    throw new DepthScaleError(
      `${record} is not joined to ${joined.reference}: match a horizon in both, or give a splice with its offset.`,
    );
  return offset;
};

/**
 * Composite depth of a depth in one record. The splices' doubt is added.
 *
 * @throws DepthScaleError for a record that is not joined
 */
export const toComposite = (joined: Joined, record: string, depth: DepthWithError): DepthWithError => {
  const offset = offsetIn(joined, record);
  return { value: depth.value - offset.value, sd: Math.hypot(depth.sd, offset.sd) };
};

/**
 * The record that a composite depth is read from, and the depth there.
 *
 * @param stack records from the top down, each with the composite depth down to which it counts; the last one has no end
 * @throws DepthScaleError for no records, ends that don't grow, or a record that is not joined
 */
export const fromComposite = (
  joined: Joined,
  stack: readonly Stretch[],
  depth: DepthWithError,
): { readonly record: string; readonly depth: DepthWithError } => {
  stack.forEach(({ record, to }, i) => {
    offsetIn(joined, record);
    if (i > 0 && !(to > stack[i - 1].to))
      throw new DepthScaleError(
        `${record} would end above ${stack[i - 1].record}: put the records in order.`,
      );
  });
  const found = stack.find(({ to }) => depth.value < to) ?? stack[stack.length - 1];
  if (found === undefined) throw new DepthScaleError('The composite has no records: name one at least.');
  const offset = offsetIn(joined, found.record);
  return {
    record: found.record,
    depth: { value: depth.value + offset.value, sd: Math.hypot(depth.sd, offset.sd) },
  };
};
