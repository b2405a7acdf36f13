import type { Shape } from '../shape.ts';
import type { Frame } from './frame.ts';
import { spans } from './runs.ts';

/** The up-arrow that the crew draws on the ice, on the first piece of each run that has room for it. */
export function arrows(frame: Frame): readonly Shape[] {
  const x = frame.core[0] + (frame.core[1] - frame.core[0]) * 0.5;
  return spans(frame)
    .filter(({ ice, top, bottom }) => ice && (bottom - top) * frame.options.mmPerMetre > 24)
    .map(({ run, top }) => ({ run, y: frame.y(top) + 5.2 }))
    .filter(({ y }) => y > frame.head && y < frame.height)
    .map(({ y }) => ({
      is: 'line',
      points: [
        [x, y - 1.7],
        [x + 1.5, y + 0.9],
        [x - 1.5, y + 0.9],
      ],
      close: true,
      stroke: { colour: 'ink', width: 0.32 },
    }));
}
