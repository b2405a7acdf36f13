import type { Kelvin, Metres, Seconds } from '../units.ts';
import { type BoxedCore, boxModel } from './box-model.ts';
import { boxWarming, type Weather } from './boxed-core.ts';

export interface BoxImprovement {
  /** Until the outside of the ice passes the limit, as the box is; null: never. */
  readonly now: Seconds | null;
  /** With the packing thicker, the wall as it is. */
  readonly moreSnow: Seconds | null;
  /** With the wall thicker, the packing as it is. */
  readonly moreWall: Seconds | null;
}

/**
 * What more packing or a thicker wall would buy: `boxWarming` of the box as it is and of two that are thicker. Where the
 * outside of the box is known, it grows with its radius; packing that was not there is taken as 350 kg/m3.
 *
 * A box without a wall gets none: its `moreWall` is `now`.
 *
 * @throws QuantityError as `boxWarming`
 */
export const boxImprovement = (
  box: BoxedCore,
  start: Kelvin,
  weather: Weather,
  limit: Kelvin,
  more: { readonly snow: Metres; readonly wall: Metres },
): BoxImprovement => {
  const { outer } = boxModel(box);
  const time = (changed: Partial<BoxedCore>): Seconds | null => {
    const { area, ...rest } = { ...box, ...changed };
    const grown = boxModel(rest).outer / outer;
    return boxWarming(area === undefined ? rest : { ...rest, area: area * grown }, start, weather, limit)
      .core;
  };
  const { snow, wall } = box;
  return {
    now: time({}),
    moreSnow: time({
      snow: { density: snow?.density ?? 350, thickness: (snow?.thickness ?? 0) + more.snow },
    }),
    moreWall: time(wall === null ? {} : { wall: { ...wall, thickness: wall.thickness + more.wall } }),
  };
};
