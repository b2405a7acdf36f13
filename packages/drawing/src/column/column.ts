import type { Picture } from '../shape.ts';
import { arrows } from './arrow.ts';
import { axis, heading } from './axis.ts';
import { features } from './features.ts';
import { frameFor, inSight } from './frame.ts';
import { hole, holeLabels } from './hole.ts';
import { ice } from './ice.ts';
import type { ColumnInput } from './input.ts';
import { marks } from './marks.ts';
import type { ColumnOptions } from './options.ts';
import { drillerMarks, runs } from './runs.ts';
import { selection } from './selection.ts';
import { soundings } from './soundings.ts';
import { uncertainty } from './uncertainty.ts';

/** A picture whose heights are depths: depth = from + (y - head) / mmPerMetre. */
export interface ColumnPicture extends Picture {
  readonly scale: { readonly from: number; readonly mmPerMetre: number; readonly head: number };
}

/**
 * The core of a hole, to scale in depth (its width is not). Only what the window shows becomes shapes, so a
 * deep hole costs no more than a shallow one.
 *
 * @throws Error where width, scale or window can't be drawn.
 */
export function coreColumn(input: ColumnInput, options: ColumnOptions): ColumnPicture {
  const frame = frameFor(input, options);
  const { show } = frame;
  const { from, to } = options.window;
  const pieces = frame.input.pieces.filter((piece) => inSight(frame, piece.top.value, piece.bottom.value, 0));
  const needed = input.marks.filter((mark) => inSight(frame, mark.depth, mark.depth, 0)).length;
  const title = frame.say('title', {
    hole: input.letter,
    from: frame.number(from, 2),
    to: frame.number(to, 2),
    pieces: pieces.length,
    runs: new Set(pieces.map((piece) => piece.run)).size,
  });
  return {
    width: options.width,
    height: frame.height,
    title: needed === 0 ? title : `${title} ${frame.say('titleMarks', { marks: needed })}`,
    scale: { from, mmPerMetre: options.mmPerMetre, head: frame.head },
    shapes: [
      ...hole(frame),
      ...ice(frame),
      ...(show.features ? features(frame) : []),
      ...(show.bubbles ? arrows(frame) : []),
      ...(show.uncertainty ? uncertainty(frame) : []),
      ...(show.runs ? [...soundings(frame), ...holeLabels(frame), ...runs(frame)] : []),
      ...(show.driller ? drillerMarks(frame) : []),
      ...(show.axis ? axis(frame) : []),
      ...selection(frame),
      ...(show.marks ? marks(frame) : []),
      ...(show.heading ? heading(frame) : []),
    ],
  };
}

/** The depth that a height in the picture stands for, metres. */
export function depthAt(picture: ColumnPicture, y: number): number {
  return picture.scale.from + (y - picture.scale.head) / picture.scale.mmPerMetre;
}
