import { type DepthAssumptions, defaultAssumptions } from '@firnbook/science/depth';
import { standing } from '../find.ts';
import type { MeasureField } from '../kind.ts';
import type { HoleView } from '../view.ts';
import { settingsKind } from './schema.ts';
import { usable, usableTemperature } from './usable.ts';

/**
 * What a hole's depth adjustment takes for granted: the usual, and what people have set for this hole. Where two
 * devices have each logged settings, the newest that says one counts for it. What can't be (a standard deviation below
 * zero, more than a hundred times out of what is usual) counts as not said.
 */
export function depthAssumptions(hole: HoleView): DepthAssumptions {
  const said: Partial<Record<keyof DepthAssumptions, number>> = {};
  for (const settings of standing(hole.others['depth settings']))
    for (const field of settingsKind.fields) {
      const { name, usual } = field as MeasureField;
      const value = usable(settings, name, usual[0] / 100, 100 * usual[1]);
      if (value !== null && Object.hasOwn(defaultAssumptions, name))
        said[name as keyof DepthAssumptions] = value;
    }
  return Object.keys(said).length === 0 ? defaultAssumptions : { ...defaultAssumptions, ...said };
}

/** Of the ice in the hole, degrees Celsius; null where nobody said one that can be. */
export const holeTemperature = (hole: HoleView): number | null =>
  standing(hole.others['depth settings'])
    .map((settings) => usableTemperature(settings, 'holeTemperature'))
    .findLast((value) => value !== null) ?? null;
