import type { ZeroReading } from '@firnbook/science/depth';
import { isCalled, standing } from '../find.ts';
import { textIn } from '../thing-view.ts';
import type { HoleView, RunView, ThingView } from '../view.ts';
import { usable } from './usable.ts';

/** Standard deviation of a zero's height where nobody said one, and where nobody measured it. Common practice, no source. */
const HEIGHT_SD = 0.01;
const UNMEASURED_SD = 1;
/** The first zero is what depths count from. */
const FIRST_SD = 0.0005;
/** No zero stands farther above or below another one, metres. */
const HIGHEST = 100;

/**
 * The hole's zeros with their heights above the first one, each from the first run that counts from it. A zero that was
 * measured several times has the mean, weighted by what each measurement is worth. Heights are told above the first zero
 * that was logged: where that one is withdrawn, the height of the first that stands comes off them. Empty where there is
 * but one.
 *
 * @param runs standing runs in order of number
 */
export function zeroReadings(hole: HoleView, runs: readonly RunView[]): readonly ZeroReading[] {
  const zeros = standing(hole.zeros);
  const first = zeros[0];
  if (first === undefined || zeros.length < 2 || runs.length === 0) return [];
  return zeros.flatMap((zero): readonly ZeroReading[] => {
    const fromRun = zero === first ? runs[0] : firstRunOf(zero, runs);
    if (fromRun === undefined) return [];
    const measured = zeroHeight(hole, zero) ?? { height: 0, sd: UNMEASURED_SD };
    return [{ id: zero.id, ...measured, fromRun: fromRun.id }];
  });
}

/** The run that names it first, else the first one after it was set. */
function firstRunOf(zero: ThingView, runs: readonly RunView[]): RunView | undefined {
  const at = Date.parse(zero.at);
  return (
    runs.find((run) => isCalled(zero, textIn(run, 'zero'))) ?? runs.find((run) => Date.parse(run.at) >= at)
  );
}

/** Null where nobody measured it. */
function heightOf(told: readonly ThingView[]): { readonly height: number; readonly sd: number } | null {
  let weight = 0;
  let sum = 0;
  for (const one of told) {
    const height = usable(one, 'height', -HIGHEST, HIGHEST);
    if (height === null) continue;
    const sd = usable(one, 'sd', 1e-4) ?? HEIGHT_SD;
    weight += 1 / sd ** 2;
    sum += height / sd ** 2;
  }
  return weight === 0 ? null : { height: sum / weight, sd: 1 / Math.sqrt(weight) };
}

/**
 * A zero's height above the hole's first one that stands, with its standard deviation, metres, by all that measured it.
 * Null where nobody did. Heights are told above the first zero that was ever logged: where that one is withdrawn, the
 * height of the first that stands comes off.
 */
export function zeroHeight(
  hole: HoleView,
  zero: ThingView,
): { readonly height: number; readonly sd: number } | null {
  const first = standing(hole.zeros)[0];
  if (zero === first) return { height: 0, sd: FIRST_SD };
  const checks = standing(hole.others['zero check']);
  const measured = (of: ThingView) =>
    heightOf([of, ...checks.filter((check) => isCalled(of, textIn(check, 'zero')))]);
  const own = measured(zero);
  if (own === null || first === undefined || first === hole.zeros[0]) return own;
  return { height: own.height - (measured(first)?.height ?? 0), sd: own.sd };
}
