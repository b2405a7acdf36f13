import type { Shape } from '../shape.ts';
import { type Frame, inSight } from './frame.ts';

/** Where the weighted tape touched: a plumb beside the hole's wall, its tip at the depth. */
export function soundings(frame: Frame): readonly Shape[] {
  // Beside the bars of uncertainty, where there are any.
  const x = frame.core[1] + (frame.show.uncertainty ? 6.1 : 2.6);
  return frame.input.soundings
    .filter(({ depth }) => inSight(frame, depth, depth))
    .flatMap(({ id, depth }): readonly Shape[] => {
      const y = frame.y(depth);
      return [
        {
          is: 'line',
          points: [
            [x, y - 6],
            [x, y - 2.2],
          ],
          stroke: { colour: 'ink', width: 0.22 },
        },
        {
          is: 'line',
          points: [
            [x - 0.9, y - 2.2],
            [x + 0.9, y - 2.2],
            [x, y],
          ],
          close: true,
          fill: 'ink',
          stroke: { colour: 'ink', width: 0.2 },
          thing: id,
        },
      ];
    });
}
