import { describe, expect, it } from 'vitest';
import { hit } from '../hit.ts';
import type { PanelInput } from './input.ts';
import { panel } from './panel.ts';
import { rangeOf } from './range.ts';

/** Invented densities of three pieces of CER-B; the second is heavier than ice can be. */
const density: PanelInput = {
  name: 'Density',
  unit: 'kg/m³',
  decimals: 0,
  samples: [
    { thing: 'piece-1', top: 10, bottom: 10.4, value: 561, sd: 7, flagged: false },
    { thing: 'piece-2', top: 10.401, bottom: 10.9, value: 968, sd: 12, flagged: true },
    { thing: 'piece-3', top: 11.1, bottom: 11.5, value: 574, sd: null, flagged: false },
  ],
  curves: [
    {
      colour: 'act',
      points: [
        { depth: 9, value: 540, low: 530, high: 550 },
        { depth: 12, value: 585, low: 570, high: 600 },
      ],
    },
  ],
  gaps: [{ top: 10.9, bottom: 11.1 }],
};
const options = { width: 40, mmPerMetre: 50, window: { from: 9.5, to: 12 } };
const drawn = panel(density, options);

describe('panel', () => {
  it('draws every sample at its true length on the depth scale of the core beside it', () => {
    const bands = drawn.shapes.filter((shape) => shape.is === 'rect' && shape.thing !== undefined);
    expect(bands.map((shape) => shape.is === 'rect' && shape.h / 50)).toEqual([
      expect.closeTo(0.4, 9),
      expect.closeTo(0.499, 9),
    ]);
  });

  it('joins samples that touch and leaves a gap where ice is missing, which is hatched', () => {
    const steps = drawn.shapes.filter(
      (shape) => shape.is === 'line' && shape.stroke.colour === 'ink' && shape.close !== true,
    );
    expect(steps.map((shape) => shape.is === 'line' && shape.points.length)).toEqual([4, 2]);
    const hatched = drawn.shapes.filter(
      (shape) => shape.is === 'rect' && typeof shape.fill === 'object' && 'hatch' in shape.fill,
    );
    expect(hatched).toHaveLength(1);
  });

  it('marks a value that a person has to look at by a form, not by colour alone, and it can be touched', () => {
    const diamond = drawn.shapes.find(
      (shape) => shape.is === 'line' && shape.close === true && shape.thing === 'piece-2',
    );
    expect(diamond).toBeDefined();
    const [x, y] = diamond?.is === 'line' ? diamond.points[0]! : [0, 0];
    expect(hit(drawn, x, y + 1.3)).toBe('piece-2');
  });

  it('has the range of the ice around its window, and keeps it while the window moves a little', () => {
    const figures = (from: number, to: number) =>
      panel(density, { ...options, window: { from, to } }).shapes.flatMap((shape) =>
        shape.is === 'text' && shape.face === 'numbers' ? [shape.text] : [],
      );
    expect(figures(9.5, 12)).toEqual(['520', '600']);
    expect(figures(9.6, 12.1)).toEqual(figures(9.5, 12));
    // Nothing of it is near: the whole core's.
    expect(figures(50, 51)).toEqual(['520', '600']);
    // Only the third piece and no point of the curve is near.
    const [least, most] = figures(11.2, 11.3).map(Number);
    expect([least! <= 574, most! >= 574, most! - least! < 80]).toEqual([true, true, true]);
  });

  it('loses no spike where thousands of samples share a millimetre', () => {
    const many = Array.from({ length: 20_000 }, (_, at) => ({
      thing: `s${at}`,
      top: at * 0.005,
      bottom: (at + 1) * 0.005,
      value: at === 12_345 ? 900 : 500 + (at % 7),
      sd: null,
      flagged: false,
    }));
    const whole = panel(
      { ...density, samples: many, curves: [], gaps: [] },
      { width: 40, mmPerMetre: 2, window: { from: 0, to: 100 } },
    );
    const [least, most] = rangeOf({ samples: many, curves: [] });
    const right = 1.5 + ((900 - least) / (most - least)) * 37;
    const reach = Math.max(
      ...whole.shapes
        .flatMap((shape) => (shape.is === 'line' ? shape.points.map(([x]) => x) : []))
        .filter((x) => x < 38.5 - 1e-9 || right > 38.5 - 1e-6),
    );
    expect(reach).toBeCloseTo(right, 6);
  });

  it('refuses a window that runs upwards, and says so', () => {
    expect(() => panel(density, { ...options, window: { from: 3, to: 2 } })).toThrow('must run downwards');
  });
});

describe('rangeOf', () => {
  it('is round numbers around values, spreads and curves; what cannot be does not stretch it', () => {
    expect(rangeOf(density)).toEqual([520, 600]);
    const flagged = density.samples.filter((one) => one.flagged);
    expect(rangeOf({ samples: flagged, curves: [] })).toEqual([950, 980]);
    expect(rangeOf({ samples: [], curves: [] })).toEqual([0, 1]);
    const one = { thing: 'a', top: 0, bottom: 1, value: 5, sd: null, flagged: false };
    const [low, high] = rangeOf({ samples: [one], curves: [] });
    expect(low).toBeLessThan(5.0001);
    expect(high).toBeGreaterThan(4.9999);
    expect(high).toBeGreaterThan(low);
  });
});
