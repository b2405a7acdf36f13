import type { Shape } from '../shape.ts';
import { type Frame, inSight } from './frame.ts';
import type { ColumnPiece, ColumnRun } from './input.ts';

interface Span {
  readonly run: ColumnRun;
  readonly top: number;
  readonly bottom: number;
  /** Not said to have brought nothing. */
  readonly cored: boolean;
  /** Has solved pieces. */
  readonly ice: boolean;
}

/** Brackets over what each run brought up, with the run's name; a run without core has its drilled interval, dashed. */
export function runs(frame: Frame): readonly Shape[] {
  const shapes: Shape[] = [];
  let free = -Infinity;
  for (const { run, top, bottom, cored } of spans(frame)) {
    if (!inSight(frame, top, bottom, 0)) continue;
    const [y0, y1] = [frame.y(top) + 0.35, frame.y(bottom) - 0.35];
    const x = frame.runs + (cored ? 0 : 1.6);
    if (y1 - y0 > 0.8)
      shapes.push({
        is: 'line',
        points: [
          [x - 1.3, y0],
          [x, y0],
          [x, y1],
          [x - 1.3, y1],
        ],
        stroke: { colour: 'ink-2', width: 0.22, ...(cored ? {} : { dash: [0.9, 0.7] }) },
        thing: run.id,
      });
    const high = cored ? frame.type : frame.type * 2.2;
    const middle = (Math.max(y0, frame.head) + Math.min(y1, frame.height)) / 2;
    const y = Math.max(middle - high / 2, free);
    if (y > y1 - Math.min(high / 2, (y1 - y0) / 2) + 0.5 || y + high > frame.height) continue;
    free = y + high + 0.8;
    const word = {
      is: 'text',
      x: frame.runs + 2.8,
      size: frame.type,
      anchor: 'start',
      face: 'words',
    } as const;
    const chosen = frame.options.selected === run.id;
    shapes.push({
      ...word,
      y: y + frame.type * 0.85,
      text: run.name,
      colour: chosen ? 'act' : 'ink-2',
      weight: chosen ? 700 : 400,
      thing: run.id,
    });
    if (!cored)
      shapes.push({
        ...word,
        y: y + frame.type * 2.05,
        text: frame.say('noCore'),
        colour: 'ink',
        thing: run.id,
      });
  }
  return shapes;
}

/** Depths of each run: of its ice, or of what was drilled where none is logged. */
export function spans(frame: Frame): readonly Span[] {
  const byRun = new Map<string, ColumnPiece[]>();
  for (const piece of frame.input.pieces) {
    const own = byRun.get(piece.run);
    if (own === undefined) byRun.set(piece.run, [piece]);
    else own.push(piece);
  }
  const all: Span[] = [];
  let before = 0;
  for (const run of frame.input.runs) {
    const own = byRun.get(run.id);
    const end = run.holeBottom?.value ?? run.to ?? before;
    if (own !== undefined)
      all.push({ run, top: own[0]!.top.value, bottom: own.at(-1)!.bottom.value, cored: true, ice: true });
    else
      all.push({
        run,
        top: run.holeBottom === null ? (run.from ?? before) : before,
        bottom: end,
        cored: !run.nothingRecovered,
        ice: false,
      });
    before = Math.max(before, end);
  }
  return all;
}

/** A link longer than this leads out of sight; then the figure stands at the solved depth, its line broken. */
const longestLink = 45;

/** The driller's depth after each run, on the same scale, joined to where the hole's bottom was by solution. */
export function drillerMarks(frame: Frame): readonly Shape[] {
  const shapes: Shape[] = [];
  let free = -Infinity;
  const x = frame.driller;
  for (const run of frame.input.runs) {
    if (run.to === null) continue;
    const there = frame.y(run.holeBottom?.value ?? run.to);
    const broken = Math.abs(frame.y(run.to) - there) > longestLink;
    const here = broken ? there : frame.y(run.to);
    if (Math.max(there, here) < frame.head || Math.min(there, here) > frame.height) continue;
    const roomy = here - free >= frame.type * 1.1;
    shapes.push({
      is: 'line',
      points: [
        ...(roomy ? [[frame.runs + 0.6, there] as const] : []),
        [x - 3, there],
        [x - 1, here],
        [x, here],
      ],
      stroke: { colour: 'ink-2', width: 0.14, ...(broken ? { dash: [0.6, 0.8] } : {}) },
      thing: run.id,
    });
    if (!roomy || here < frame.head + frame.type * 0.4) continue;
    free = here;
    shapes.push({
      is: 'text',
      x: x + 0.9,
      y: here + frame.type * 0.35,
      text: frame.number(run.to, 2),
      size: frame.type,
      anchor: 'start',
      colour: 'ink-2',
      face: 'numbers',
      thing: run.id,
    });
  }
  return shapes;
}
