import { describe, expect, it } from 'vitest';
import { boundsOf } from '../bounds.ts';
import { hit } from '../hit.ts';
import type { Shape } from '../shape.ts';
import { toSvg } from '../svg.ts';
import { themes } from '../theme.ts';
import { ceredin, deepHole } from './ceredin.suite.ts';
import { type ColumnPicture, coreColumn, depthAt } from './column.ts';
import { stripOnly } from './options.ts';

const options = { mmPerMetre: 50, window: { from: 26, to: 31 }, width: 90 };
const picture = coreColumn(ceredin, options);

type Line = Extract<Shape, { readonly is: 'line' }>;
const isLit = (shape: Shape): shape is Line =>
  shape.is === 'line' && typeof shape.fill === 'object' && 'cylinder' in shape.fill;
const meanY = (points: readonly (readonly [number, number])[]): number =>
  points.reduce((sum, point) => sum + point[1], 0) / points.length;
const texts = (shown: ColumnPicture): readonly string[] =>
  shown.shapes.flatMap((shape) => (shape.is === 'text' ? [shape.text] : []));

describe('coreColumn', () => {
  it('draws each piece to scale: its edges lie, on their mean, at its top and bottom', () => {
    const drawn = picture.shapes.filter(isLit);
    expect(drawn.map((shape) => shape.thing)).toEqual(ceredin.pieces.map((piece) => piece.id));
    for (const [at, shape] of drawn.entries()) {
      const piece = ceredin.pieces[at]!;
      const half = shape.points.length / 2;
      expect(depthAt(picture, meanY(shape.points.slice(0, half)))).toBeCloseTo(piece.top.value, 9);
      expect(depthAt(picture, meanY(shape.points.slice(half)))).toBeCloseTo(piece.bottom.value, 9);
    }
  });

  it('is as high as its window at its scale, under the heading', () => {
    expect(picture.height - picture.scale.head).toBeCloseTo(5 * 50, 9);
    expect(depthAt(picture, picture.height)).toBeCloseTo(31, 9);
  });

  it('draws fits, loss and unsure differently: a thin line, hatching, a dashed line with a question mark', () => {
    const close = coreColumn(ceredin, { ...options, mmPerMetre: 200, window: { from: 27.8, to: 28.7 } });
    const dashed = close.shapes.filter(
      (shape) => shape.is === 'line' && shape.stroke.colour === 'ink' && shape.stroke.dash !== undefined,
    );
    expect(dashed.length).toBeGreaterThan(0);
    expect(texts(close).filter((text) => text === '?')).toHaveLength(1);
    const hatched = close.shapes.filter(
      (shape) => shape.is === 'line' && typeof shape.fill === 'object' && 'hatch' in shape.fill,
    );
    // The missing 21 mm above run 34 and the 6 mm above run 33.
    expect(hatched.map((shape) => shape.thing)).toEqual(['piece-33-1', 'piece-34-1']);
  });

  it('hatches a gap too wide for a fit even where the break was said to fit', () => {
    const moved = ceredin.pieces.map((piece) =>
      piece.id === 'piece-32-1' ? { ...piece, top: { ...piece.top, value: piece.top.value + 0.02 } } : piece,
    );
    const hatched = coreColumn({ ...ceredin, pieces: moved }, options).shapes.filter(
      (shape) => shape.is === 'line' && typeof shape.fill === 'object' && 'hatch' in shape.fill,
    );
    expect(hatched.map((shape) => shape.thing)).toContain('piece-32-1');
  });

  it('hatches missing ice to scale', () => {
    const gap = picture.shapes.find(
      (shape): shape is Line =>
        shape.is === 'line' &&
        shape.thing === 'piece-36-1' &&
        typeof shape.fill === 'object' &&
        'hatch' in shape.fill,
    );
    const [lower, upper] = [ceredin.pieces[6]!.bottom.value, ceredin.pieces[7]!.top.value];
    const half = gap!.points.length / 2;
    expect(meanY(gap!.points.slice(half)) - meanY(gap!.points.slice(0, half))).toBeCloseTo(
      (upper - lower) * 50,
      9,
    );
  });

  it('gives pieces that fit one edge, and pieces that do not their own', () => {
    const edges = picture.shapes.filter(isLit).map((shape) => ({
      top: shape.points.slice(0, shape.points.length / 2),
      bottom: shape.points.slice(shape.points.length / 2).reverse(),
    }));
    const shapeOf = (points: readonly (readonly [number, number])[]): readonly string[] =>
      points.map(([, y]) => (y - meanY(points)).toFixed(6));
    expect(shapeOf(edges[0]!.bottom)).toEqual(shapeOf(edges[1]!.top));
    expect(shapeOf(edges[6]!.bottom)).not.toEqual(shapeOf(edges[7]!.top));
  });

  it('names runs, says which brought no core, the bottom of the hole and what stands under the last piece', () => {
    expect(texts(picture)).toEqual(
      expect.arrayContaining([
        'B-R031',
        'B-R036',
        'no core',
        'hole 30.52 m ± 2 cm',
        '15 cm under the last piece',
      ]),
    );
  });

  it('says that a run is not logged yet instead of leaving its core in the hole', () => {
    const fresh = { ...ceredin, pieces: ceredin.pieces.filter((piece) => piece.run !== 'run-36') };
    expect(texts(coreColumn(fresh, options))).toContain('1.05 m not logged yet');
  });

  it('shows the driller’s depth beside the solved one, both scales named', () => {
    expect(texts(picture)).toEqual(expect.arrayContaining(['solved, m', 'driller, m', '29.58']));
    // A level line from the hole's bottom, then aslant to the driller's own depth.
    const link = picture.shapes.find(
      (shape): shape is Line =>
        shape.is === 'line' &&
        shape.thing === 'run-34' &&
        shape.points[0]?.[1] === shape.points[1]?.[1] &&
        shape.points[1]?.[0] !== shape.points[2]?.[0],
    );
    expect(depthAt(picture, link!.points[0]![1])).toBeCloseTo(29.51, 9);
    expect(depthAt(picture, link!.points[3]![1])).toBeCloseTo(29.58, 9);
  });

  it('marks where a person is needed in the call colour and with a sign, and counts it in the title', () => {
    const called = picture.shapes.filter((shape) => shape.is === 'line' && shape.fill === 'call');
    expect(called.map((shape) => shape.thing)).toEqual(['piece-36-1']);
    const conflict = picture.shapes.filter((shape) => shape.is === 'rect' && shape.stroke?.colour === 'call');
    expect(conflict.map((shape) => shape.thing)).toEqual(['run-33']);
    expect(picture.title).toBe(
      'Core of hole B from 26.00 to 31.00 m, to scale: 10 pieces of 5 runs. A person is needed at 2 places.',
    );
  });

  it('outlines what is selected and writes its top and bottom with their spread', () => {
    const chosen = coreColumn(ceredin, { ...options, selected: 'piece-34-2' });
    expect(texts(chosen)).toEqual(expect.arrayContaining(['28.92', '29.47', '± 1 cm']));
    const outline = chosen.shapes.find((shape) => shape.is === 'rect' && shape.stroke?.colour === 'act');
    expect(depthAt(chosen, boundsOf(outline!).y0 + 0.35)).toBeCloseTo(ceredin.pieces[6]!.top.value, 9);
  });

  it('draws the possible range of what is selected as a hair while it is short on paper, else not at all', () => {
    const ranged = (metres: number) => {
      const pieces = ceredin.pieces.map((piece) =>
        piece.id === 'piece-34-2'
          ? { ...piece, top: { ...piece.top, min: piece.top.value - metres, max: piece.top.value } }
          : piece,
      );
      const drawn = coreColumn({ ...ceredin, pieces }, { ...options, selected: 'piece-34-2' });
      const y = drawn.scale.head + (ceredin.pieces[6]!.top.value - 26) * options.mmPerMetre;
      return drawn.shapes.some(
        (shape) =>
          shape.is === 'line' && shape.stroke?.width === 0.12 && Math.abs(shape.points[1]![1] - y) < 1e-9,
      );
    };
    expect(ranged(0.2)).toBe(true);
    expect(ranged(1.7)).toBe(false);
  });

  it('ends a bar of uncertainty above the caption under the hole, with an open end', () => {
    const last = ceredin.pieces.at(-1)!;
    const vague = { ...last, bottom: { ...last.bottom, sd: 0.4 } };
    const drawn = coreColumn({ ...ceredin, pieces: [...ceredin.pieces.slice(0, -1), vague] }, options);
    const bars = drawn.shapes.filter(
      (shape): shape is Line =>
        shape.is === 'line' && shape.stroke?.width === 0.55 && shape.thing === last.id,
    );
    const caption = drawn.shapes.find((shape) => shape.is === 'text' && shape.text.startsWith('hole '));
    expect(bars.length).toBeGreaterThan(0);
    for (const bar of bars) expect(boundsOf(bar).y1).toBeLessThan(boundsOf(caption!).y0 + 1);
    expect(
      drawn.shapes.filter((shape) => shape.is === 'line' && shape.stroke?.width === 0.3 && !shape.close),
    ).not.toEqual([]);
  });

  it('draws the zero where the window reaches it', () => {
    const top = coreColumn({ ...ceredin, pieces: [] }, { ...options, window: { from: -0.2, to: 2 } });
    expect(texts(top)).toContain('zero: snow surface, 12 June');
    expect(texts(picture).some((text) => text.startsWith('zero'))).toBe(false);
  });

  it('hangs a plumb at the depth of a sounding', () => {
    const plumb = picture.shapes.find((shape) => shape.thing === 'sounding-36');
    expect(depthAt(picture, boundsOf(plumb!).y1 - 0.1)).toBeCloseTo(30.49, 9);
  });

  it('answers a touch on the ice with its piece', () => {
    const middle = picture.scale.head + (29.2 - 26) * 50;
    const lit = picture.shapes.find(isLit)!;
    const x = (boundsOf(lit).x0 + boundsOf(lit).x1) / 2;
    expect(hit(picture, x, middle)).toBe('piece-34-2');
  });

  it('of the same input gives the same picture', () => {
    expect(toSvg(coreColumn(structuredClone(ceredin), options), themes.standard)).toBe(
      toSvg(picture, themes.standard),
    );
  });

  it('speaks the reader’s language and number format where they are given', () => {
    const spoken = coreColumn(ceredin, {
      ...options,
      say: (word, values = {}) => `${word} ${Object.values(values).join(' ')}`,
      number: (value, decimals) => value.toFixed(decimals).replace('.', ','),
    });
    expect(texts(spoken)).toEqual(
      expect.arrayContaining(['29,58', '28,5', 'noCore ', 'holeBottom 30,52 2 cm']),
    );
  });

  it('refuses a scale, width or window that can not be drawn, and says which', () => {
    expect(() => coreColumn(ceredin, { ...options, mmPerMetre: 0 })).toThrow('at 0 mm per metre');
    expect(() => coreColumn(ceredin, { ...options, window: { from: 3, to: 3 } })).toThrow('from 3 to 3 m');
  });
});

describe('coreColumn of a deep hole', () => {
  const deep = deepHole(3000, 3);

  it('of 9,000 pieces makes no more shapes for a window in the middle than the window holds', () => {
    const window = { from: 1500, to: 1503.4 };
    const shown = deep.pieces.filter(
      (piece) => piece.bottom.value > window.from && piece.top.value < window.to,
    );
    const middle = coreColumn(deep, { mmPerMetre: 60, window, width: 90 });
    const lit = middle.shapes.filter(isLit);
    expect(lit.length).toBeGreaterThanOrEqual(shown.length);
    expect(lit.length).toBeLessThanOrEqual(shown.length + 2);
    expect(middle.shapes.length).toBeLessThan(400);
  });

  it('as a strip draws the whole in a few blocks that leave no ice out', () => {
    const end = deep.pieces.at(-1)!.bottom.value;
    const strip = coreColumn(deep, {
      mmPerMetre: 200 / end,
      window: { from: 0, to: end },
      width: 17,
      show: stripOnly,
    });
    const blocks = strip.shapes.filter(
      (shape) => shape.is === 'rect' && typeof shape.fill === 'object' && 'cylinder' in shape.fill,
    );
    expect(strip.shapes.length).toBeLessThan(60);
    expect(blocks.reduce((sum, block) => sum + (block.is === 'rect' ? block.h : 0), 0)).toBeCloseTo(200, 1);
  });
});
