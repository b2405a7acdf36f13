import type { Shape } from '../shape.ts';
import { type Frame, inSight } from './frame.ts';
import type { ColumnFeature } from './input.ts';
import { lots, roughness } from './rough.ts';

/** The least height that still shows as a band, millimetres. */
const leastBand = 0.35;

/** What was seen in the ice, where it lies: each kind has its own form, so that colour never tells alone. */
export function features(frame: Frame): readonly Shape[] {
  return frame.input.features
    .filter((one) => inSight(frame, one.top, one.bottom, 1))
    .flatMap((one) => draw[one.what](frame, one));
}

type Draw = (frame: Frame, feature: ColumnFeature) => readonly Shape[];

const draw: Readonly<Record<ColumnFeature['what'], Draw>> = {
  'melt layer': meltLayer,
  crust,
  dust,
  crack,
  bubbles,
  other,
};

/** Glassy: a clear band between two lines, with a streak of light where it is high enough. */
function meltLayer(frame: Frame, { id, top, bottom }: ColumnFeature): readonly Shape[] {
  const [left, right] = frame.core;
  const [y0, y1] = heights(frame, top, bottom);
  const edge = (y: number): Shape => ({
    is: 'line',
    points: [
      [left, y],
      [right, y],
    ],
    stroke: { colour: 'melt-ink', width: 0.16 },
  });
  const lit = left + 0.36 * (right - left);
  return [
    { is: 'rect', x: left, y: y0, w: right - left, h: y1 - y0, fill: 'melt', thing: id },
    ...(y1 - y0 > 1.4
      ? [
          {
            is: 'line',
            points: [
              [lit, y0 + 0.4],
              [lit, y1 - 0.4],
            ],
            stroke: { colour: 'ice-lit', width: 0.7 },
          } as const,
        ]
      : []),
    edge(y0),
    edge(y1),
  ];
}

/** Thin and straight: one line, with short strokes under it. */
function crust(frame: Frame, { id, top, bottom }: ColumnFeature): readonly Shape[] {
  const [left, right] = frame.core;
  const y = frame.y((top + bottom) / 2);
  const strokes = Array.from({ length: 6 }, (_, at): Shape => {
    const x = left + ((at + 0.5) / 6) * (right - left);
    return {
      is: 'line',
      points: [
        [x, y],
        [x - 0.6, y + 0.9],
      ],
      stroke: { colour: 'melt-ink', width: 0.16 },
    };
  });
  return [
    {
      is: 'line',
      points: [
        [left, y],
        [right, y],
      ],
      stroke: { colour: 'melt-ink', width: 0.4 },
      thing: id,
    },
    ...strokes,
  ];
}

/** A wavy band. */
function dust(frame: Frame, { id, top, bottom }: ColumnFeature): readonly Shape[] {
  const [left, right] = frame.core;
  const [y0, y1] = heights(frame, top, bottom);
  const offsets = roughness(`${id}/dust`, 14);
  return [
    {
      is: 'line',
      points: offsets.map((offset, at) => [
        left + ((right - left) * at) / (offsets.length - 1),
        (y0 + y1) / 2 + 0.45 * offset,
      ]),
      stroke: { colour: 'dust', width: Math.max(0.55, y1 - y0) },
      thing: id,
    },
  ];
}

/** A jagged line from wall to wall. */
function crack(frame: Frame, { id, top, bottom }: ColumnFeature): readonly Shape[] {
  const [left, right] = frame.core;
  const middle = frame.y((top + bottom) / 2);
  const half = Math.max(1.1, (frame.y(bottom) - frame.y(top)) / 2);
  const offsets = roughness(`${id}/crack`, 9);
  return [
    {
      is: 'line',
      points: offsets.map((offset, at) => {
        const share = at / (offsets.length - 1);
        return [left + (right - left) * share, middle + half * (2 * share - 1 + 0.35 * offset)];
      }),
      stroke: { colour: 'ink', width: 0.26 },
      thing: id,
    },
  ];
}

/** Rings among the bubbles that are there anyway, between two dotted limits. */
function bubbles(frame: Frame, { id, top, bottom }: ColumnFeature): readonly Shape[] {
  const [left, right] = frame.core;
  const [y0, y1] = heights(frame, top, bottom);
  const lot = lots(`${id}/bubbles`);
  const count = Math.min(60, Math.max(6, Math.round((y1 - y0) * 1.6)));
  const rings = Array.from({ length: count }, (): Shape => {
    const r = 0.3 + 0.35 * lot();
    return {
      is: 'circle',
      x: left + 1 + lot() * (right - left - 2),
      y: y0 + lot() * (y1 - y0),
      r,
      stroke: { colour: 'bubble', width: 0.16 },
      thing: id,
    };
  });
  const limit = (y: number): Shape => ({
    is: 'line',
    points: [
      [left, y],
      [right, y],
    ],
    stroke: { colour: 'bubble', width: 0.16, dash: [0.5, 0.8] },
    thing: id,
  });
  return [...rings, limit(y0), limit(y1)];
}

/** Something else that was written down: a ring with a point in it, at its depth. */
function other(frame: Frame, { id, top, bottom }: ColumnFeature): readonly Shape[] {
  const x = frame.core[0] + 2.4;
  const y = frame.y((top + bottom) / 2);
  return [
    { is: 'circle', x, y, r: 1.1, stroke: { colour: 'ink', width: 0.22 }, fill: 'ice-lit', thing: id },
    { is: 'circle', x, y, r: 0.28, fill: 'ink' },
  ];
}

function heights(frame: Frame, top: number, bottom: number): readonly [number, number] {
  const [y0, y1] = [frame.y(top), frame.y(bottom)];
  const short = leastBand - (y1 - y0);
  return short > 0 ? [y0 - short / 2, y1 + short / 2] : [y0, y1];
}
