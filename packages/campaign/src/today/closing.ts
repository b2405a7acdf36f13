import type { DepthReadings } from '@firnbook/science/depth';
import { type Closing, closing } from '@firnbook/science/depth-scales';
import type { DepthView, RunView } from '../view.ts';

/** Drilled held against core, lost and left in the hole, over several runs. All in metres. */
export interface DayClosing extends Omit<Closing, 'closes'> {
  /** Runs in the sums. */
  readonly runs: number;
  /** Runs that can't be in them: the counter or a length was not read, or the core is not logged yet. */
  readonly open: readonly RunView[];
  readonly closes: boolean;
}

/**
 * The runs' closings together. Stubs that one run leaves and the next one brings cancel; what is left in the hole is
 * the stub after the last run less the one before the first. The tolerances add up as independent ones do, but for the
 * cable's scale, which all runs share.
 *
 * @param readings of the hole
 * @param runs of it, standing, in order of number
 * @returns null while the hole is not solved, or where no run can be summed
 */
export function dayClosing(
  readings: DepthReadings,
  depths: DepthView | null,
  runs: readonly RunView[],
): DayClosing | null {
  if (depths === null) return null;
  const solution = {
    assumptions: depths.assumptions,
    learned: depths.learned,
    runs: readings.runs.flatMap(({ id }) => {
      const own = depths.runs[id];
      return own === undefined ? [] : [{ id, ...own }];
    }),
  };
  const each = runs.map((run) => (isLogged(run) ? closing(readings, solution, run.id) : null));
  const closed = each.filter((one) => one !== null);
  const [first, last] = [closed[0], closed.at(-1)];
  if (first === undefined || last === undefined) return null;
  const sum = (of: (one: Closing) => number): number => closed.reduce((all, one) => all + of(one), 0);
  const cable = depths.learned.cableScale.sd;
  const advance = sum((one) => one.advance);
  const own = sum((one) => (one.tolerance / 2) ** 2 - (cable * one.advance) ** 2);
  const tolerance = 2 * Math.sqrt(own + (cable * advance) ** 2);
  const difference = sum((one) => one.difference);
  return {
    runs: closed.length,
    open: runs.filter((_, at) => each[at] === null),
    advance,
    core: sum((one) => one.core),
    lost: sum((one) => one.lost),
    unseen: sum((one) => one.unseen),
    chips: sum((one) => one.chips),
    stubBefore: first.stubBefore,
    stub: last.stub,
    difference,
    tolerance,
    closes: Math.abs(difference) <= tolerance,
  };
}

/** Its core is on the bench or nothing came. */
const isLogged = (run: RunView): boolean =>
  run.nothingRecovered || run.pieces.some((piece) => piece.withdrawn === null);
