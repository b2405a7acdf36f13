import type { ColourName, Picture, Shape } from '../shape.ts';

/** Something seen in a record, at its own depth, metres. */
export interface SpliceFeature {
  readonly id: string;
  readonly what: string;
  readonly top: number;
  readonly bottom: number;
}

/** A hole, a pit or a hand-augered top. */
export interface SpliceRecord {
  readonly id: string;
  readonly name: string;
  /** Its depth less the common depth of the same ice, metres. */
  readonly offset: number;
  readonly sd: number;
  /** Ice that was recovered, in its own depths, from the top down. */
  readonly ice: readonly { readonly top: number; readonly bottom: number }[];
  readonly features: readonly SpliceFeature[];
}

/** The same layer in two records. */
export interface SpliceTie {
  readonly of: { readonly record: string; readonly feature: string };
  readonly on: { readonly record: string; readonly feature: string };
}

export interface SpliceOptions {
  /** Millimetres. */
  readonly width: number;
  readonly height: number;
  /** Common depths shown, metres. */
  readonly window: { readonly from: number; readonly to: number };
  readonly type?: number;
  /** The record that is being moved. */
  readonly selected?: string | null;
  readonly number?: (value: number, decimals: number) => string;
  /** Read aloud in place of the picture. */
  readonly title: string;
}

interface Frame {
  readonly options: SpliceOptions;
  readonly type: number;
  readonly head: number;
  readonly y: (common: number) => number;
  readonly column: (at: number) => readonly [number, number];
  readonly axis: number;
}

/**
 * Records side by side on one depth, to scale, each moved by its splice. Ties join the same layer from one to the next:
 * a level line is a layer that lies where the splice says, a sloping one does not.
 *
 * @throws Error where the window does not run downwards
 */
export function spliceColumns(
  records: readonly SpliceRecord[],
  ties: readonly SpliceTie[],
  options: SpliceOptions,
): Picture {
  const { width, height, window } = options;
  if (!(window.to > window.from) || !(width > 0) || !(height > 0))
    throw new Error(
      `Splices of ${width} by ${height} mm from ${window.from} to ${window.to} m can't be drawn; the window must run downwards.`,
    );
  const type = options.type ?? 3.3;
  const head = type * 2.6;
  const axis = type * 4.2;
  const each = (width - axis - 1) / Math.max(1, records.length);
  const wide = Math.max(4, Math.min(22, each * 0.42));
  const frame: Frame = {
    options,
    type,
    head,
    y: (common) => head + ((common - window.from) / (window.to - window.from)) * (height - head - 1),
    column: (at) => {
      const middle = axis + each * (at + 0.5);
      return [middle - wide / 2, middle + wide / 2];
    },
    axis,
  };
  return {
    width,
    height,
    title: options.title,
    shapes: [
      ...records.flatMap((record, at) => iceShapes(frame, record, at)),
      ...records.flatMap((record, at) => featureShapes(frame, record, at)),
      ...ties.flatMap((tie) => tieShapes(frame, records, tie)),
      // A strip that hides what is scrolled away.
      { is: 'rect', x: 0, y: 0, w: width, h: head, fill: 'sheet' },
      ...records.map((record, at) => nameShape(frame, record, at)),
      ...axisShapes(frame),
    ],
  };
}

const common = (record: SpliceRecord, own: number): number => own - record.offset;

function isSeen({ options: { window } }: Frame, top: number, bottom: number): boolean {
  return bottom >= window.from && top <= window.to;
}

function iceShapes(frame: Frame, record: SpliceRecord, at: number): readonly Shape[] {
  const [x0, x1] = frame.column(at);
  const { height } = frame.options;
  return record.ice
    .filter((piece) => isSeen(frame, common(record, piece.top), common(record, piece.bottom)))
    .map((piece): Shape => {
      const top = Math.max(0, frame.y(common(record, piece.top)));
      const bottom = Math.min(height, frame.y(common(record, piece.bottom)));
      return {
        is: 'rect',
        x: x0,
        y: top,
        w: x1 - x0,
        h: Math.max(0.2, bottom - top),
        fill: { cylinder: { x0, x1 } },
        stroke: {
          colour: frame.options.selected === record.id ? 'act' : 'ink-2',
          width: frame.options.selected === record.id ? 0.5 : 0.2,
        },
        thing: record.id,
      };
    });
}

const inks: Readonly<Record<string, ColourName>> = { dust: 'dust', 'melt layer': 'melt-ink' };

/** Dust and melt differ by more than their colour: dust is a wavy double line, all else a band. */
function featureShapes(frame: Frame, record: SpliceRecord, at: number): readonly Shape[] {
  const [x0, x1] = frame.column(at);
  return record.features
    .filter((one) => isSeen(frame, common(record, one.top), common(record, one.bottom)))
    .flatMap((one): readonly Shape[] => {
      const top = frame.y(common(record, one.top));
      const bottom = Math.max(top + 0.7, frame.y(common(record, one.bottom)));
      const colour = inks[one.what] ?? 'ink-2';
      if (one.what !== 'dust')
        return [{ is: 'rect', x: x0, y: top, w: x1 - x0, h: bottom - top, fill: colour, thing: one.id }];
      const middle = (top + bottom) / 2;
      const wave = Array.from({ length: 9 }, (_, step): readonly [number, number] => [
        x0 + (step / 8) * (x1 - x0),
        middle + (step % 2 === 0 ? -0.35 : 0.35),
      ]);
      return [
        { is: 'line', points: wave, stroke: { colour, width: Math.max(0.9, bottom - top) }, thing: one.id },
      ];
    });
}

function tieShapes(frame: Frame, records: readonly SpliceRecord[], tie: SpliceTie): readonly Shape[] {
  const end = ({ record, feature }: SpliceTie['of']) => {
    const at = records.findIndex((one) => one.id === record);
    const own = records[at];
    const seen = own?.features.find((one) => one.id === feature);
    if (own === undefined || seen === undefined) return null;
    return { at, y: frame.y(common(own, (seen.top + seen.bottom) / 2)) };
  };
  const ends = [end(tie.of), end(tie.on)];
  const [left, right] = ends[0] && ends[1] && ends[0].at > ends[1].at ? [ends[1], ends[0]] : ends;
  if (!left || !right || left.at === right.at) return [];
  const { height } = frame.options;
  if ((left.y < frame.head && right.y < frame.head) || (left.y > height && right.y > height)) return [];
  return [
    {
      is: 'line',
      points: [
        [frame.column(left.at)[1] + 0.6, left.y],
        [frame.column(right.at)[0] - 0.6, right.y],
      ],
      stroke: { colour: 'ink', width: 0.4, dash: [1.2, 0.8] },
    },
  ];
}

function nameShape(frame: Frame, record: SpliceRecord, at: number): Shape {
  const [x0, x1] = frame.column(at);
  return {
    is: 'text',
    x: (x0 + x1) / 2,
    y: frame.type * 1.4,
    text: record.name,
    size: frame.type,
    anchor: 'middle',
    colour: frame.options.selected === record.id ? 'act' : 'ink',
    face: 'words',
    weight: 700,
    thing: record.id,
  };
}

function axisShapes({ options, type, y, axis, head }: Frame): readonly Shape[] {
  const { from, to } = options.window;
  const write = options.number ?? ((value, decimals) => value.toFixed(decimals));
  const wish = (to - from) / 6;
  const power = 10 ** Math.floor(Math.log10(wish));
  const step = power * ([1, 2, 5, 10].find((one) => one * power >= wish * (1 - 1e-9)) ?? 10);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const shapes: Shape[] = [];
  for (let tick = Math.ceil(from / step - 1e-9); tick * step <= to + 1e-9; tick += 1) {
    const at = y(tick * step);
    if (at < head) continue;
    shapes.push(
      {
        is: 'line',
        points: [
          [axis - 2, at],
          [axis, at],
        ],
        stroke: { colour: 'ink-2', width: 0.25 },
      },
      {
        is: 'text',
        x: axis - 2.6,
        y: at + type * 0.3,
        text: write(tick * step || 0, decimals),
        size: type * 0.85,
        anchor: 'end',
        colour: 'ink-2',
        face: 'numbers',
      },
    );
  }
  return shapes;
}
