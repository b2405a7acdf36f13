import type { Shape } from '../shape.ts';
import type { Frame } from './frame.ts';
import { coveredHeights } from './selection.ts';
import { ticksFor } from './ticks.ts';

/** Solved depth, left of the core. */
export function axis(frame: Frame): readonly Shape[] {
  const { window, mmPerMetre } = frame.options;
  const { ticks, decimals } = ticksFor(Math.max(0, window.from), window.to, mmPerMetre, frame.type * 4.5);
  const [x0, x1] = frame.ticks;
  const covered = coveredHeights(frame);
  return ticks.flatMap(({ depth, long }): readonly Shape[] => {
    const y = frame.y(depth);
    if (y > frame.height) return [];
    const tick: Shape = {
      is: 'line',
      points: [
        [long ? x0 : x1 - 1.3, y],
        [x1, y],
      ],
      stroke: { colour: long ? 'ink' : 'ink-2', width: long ? 0.28 : 0.16 },
    };
    if (!long || covered(y) || y < frame.head + frame.type * 0.4 || y > frame.height - frame.type * 0.4)
      return [tick];
    return [
      tick,
      {
        is: 'text',
        x: frame.axis,
        y: y + frame.type * 0.35,
        text: frame.number(depth, decimals),
        size: frame.type,
        anchor: 'end',
        colour: 'ink',
        face: 'numbers',
      },
    ];
  });
}

/** Names of the two scales, over a strip that hides what is scrolled away. */
export function heading(frame: Frame): readonly Shape[] {
  const word = {
    is: 'text',
    y: frame.type * 1.15,
    size: frame.type,
    colour: 'ink-2',
    face: 'words',
  } as const;
  const { pieces, runs } = frame.input;
  const solved = pieces.length > 0 || runs.some((run) => run.holeBottom !== null);
  return [
    { is: 'rect', x: 0, y: 0, w: frame.options.width, h: frame.head - frame.type * 0.5, fill: 'sheet' },
    ...(frame.show.axis && solved
      ? [{ ...word, x: 0, text: frame.say('solvedScale'), anchor: 'start' } as const]
      : []),
    ...(frame.show.driller && frame.input.runs.some((run) => run.to !== null)
      ? [{ ...word, x: frame.driller - 3, text: frame.say('drillerScale'), anchor: 'start' } as const]
      : []),
  ];
}
