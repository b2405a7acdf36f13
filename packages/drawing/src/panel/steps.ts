import type { Shape } from '../shape.ts';
import type { PanelFrame, PanelSample } from './input.ts';

/** Two samples closer than this have no gap between them, metres. */
const touching = 0.006;
/** Below this height in millimetres many samples share a pixel and are drawn as one spread, none left out. */
const hair = 0.12;

/** Samples at their true length: a band of one standard deviation either way, and the value as a step in it. */
export function stepShapes(frame: PanelFrame): readonly Shape[] {
  const { y, x, head, height, options } = frame;
  const seen = frame.input.samples.filter((one) => y(one.bottom) >= head - 1 && y(one.top) <= height + 1);
  if (seen.length > 0 && (height - head) / seen.length < hair) return spreads(frame, seen);
  const colour = options.colour ?? 'ink';
  const bands: Shape[] = [];
  const lines: Shape[] = [];
  let line: [number, number][] = [];
  const end = (): void => {
    if (line.length > 1) lines.push({ is: 'line', points: line, stroke: { colour, width: 0.32 } });
    line = [];
  };
  let before: PanelSample | undefined;
  for (const one of seen) {
    const [top, bottom] = [y(one.top), y(one.bottom)];
    const high = Math.max(0.2, bottom - top);
    if (one.sd !== null)
      bands.push({
        is: 'rect',
        x: x(one.value - one.sd),
        y: top,
        w: Math.max(0.1, x(one.value + one.sd) - x(one.value - one.sd)),
        h: high,
        fill: one.flagged ? 'call-bg' : 'ice',
        thing: one.thing,
      });
    if (before !== undefined && one.top - before.bottom > touching) end();
    line.push([x(one.value), top], [x(one.value), bottom]);
    if (one.flagged) lines.push(flag(frame, one, top, bottom));
    if (one.thing === options.selected)
      lines.push({
        is: 'line',
        points: [
          [x(one.value), top],
          [x(one.value), bottom],
        ],
        stroke: { colour: 'act', width: 0.9 },
        thing: one.thing,
      });
    before = one;
  }
  end();
  return [...bands, ...lines];
}

/** A value that a person has to look at: an open diamond on its step. */
function flag({ x }: PanelFrame, { value, thing }: PanelSample, top: number, bottom: number): Shape {
  const [middle, r] = [(top + bottom) / 2, 1.3];
  return {
    is: 'line',
    points: [
      [x(value), middle - r],
      [x(value) + r, middle],
      [x(value), middle + r],
      [x(value) - r, middle],
    ],
    close: true,
    stroke: { colour: 'call', width: 0.4 },
    fill: 'call-bg',
    thing,
  };
}

/** Least to greatest value of each hair's breadth, so that no spike is lost. */
function spreads({ x, y, options }: PanelFrame, seen: readonly PanelSample[]): readonly Shape[] {
  const rows = new Map<number, { least: number; most: number }>();
  for (const one of seen) {
    const row = Math.round(y((one.top + one.bottom) / 2) / hair);
    const there = rows.get(row);
    if (there === undefined) rows.set(row, { least: one.value, most: one.value });
    else {
      there.least = Math.min(there.least, one.value);
      there.most = Math.max(there.most, one.value);
    }
  }
  return [...rows].map(([row, { least, most }]) => ({
    is: 'line',
    points: [
      [x(least), row * hair],
      [Math.max(x(most), x(least) + 0.1), row * hair],
    ],
    stroke: { colour: options.colour ?? 'ink', width: hair * 1.2 },
  }));
}
