import { describe, expect, it } from 'vitest';
import { boundsOf } from '../bounds.ts';
import type { Shape, Stroke } from '../shape.ts';
import { toSvg } from '../svg.ts';
import { themes } from '../theme.ts';
import { axisWords } from './axes.ts';
import { chart } from './chart.ts';
import type { Chart } from './input.ts';
import { curveStrokes } from './styles.ts';

const line = (label: string, slope: number, dashed?: true): Chart['curves'][number] => ({
  label,
  at: Array.from({ length: 30 }, (_, at) => [at * 4, 20 + slope * at] as const),
  ...(dashed ? { dashed } : {}),
});

const input: Chart = {
  title: 'Age of ice over its depth at an invented site, as two models have it',
  x: { label: 'age', unit: 'a', from: 0, to: 100 },
  y: { label: 'depth', unit: 'm', from: 90, to: 0 },
  curves: [line('with two stages', 2.4), line('with one', 1.9), line('counted', 3.1, true)],
  points: [
    {
      label: 'dated horizons',
      at: [
        [12, 31],
        [47, 66],
        [140, 70],
      ],
    },
  ],
  bands: [
    {
      label: '± 2 sd',
      at: [
        [0, 18, 23],
        [50, 40, 52],
        [90, 62, 81],
      ],
    },
  ],
};

const texts = (shapes: readonly Shape[]): readonly string[] =>
  shapes.flatMap((shape) => (shape.is === 'text' ? [shape.text] : []));

describe('chart', () => {
  const picture = chart(input);

  it('keeps every shape within its paper', () => {
    for (const shape of picture.shapes) {
      const { x0, y0, x1, y1 } = boundsOf(shape);
      expect(x0).toBeGreaterThanOrEqual(0);
      expect(y0).toBeGreaterThanOrEqual(0);
      expect(y1).toBeLessThanOrEqual(picture.height);
      // Bounds count the letters of words as if all were as wide as a digit.
      if (shape.is !== 'text' || shape.face === 'numbers') expect(x1).toBeLessThanOrEqual(picture.width);
    }
  });

  it('says title, what each line is, and both axes with their units', () => {
    const said = texts(picture.shapes).join(' ');
    expect(said).toContain('Age of ice over its depth at an invented');
    for (const words of ['with two stages', 'counted', 'dated horizons', '± 2 sd', 'age / a', 'depth / m'])
      expect(said).toContain(words);
  });

  it('runs down where the axis does', () => {
    const numbers = picture.shapes.filter(
      (shape) => shape.is === 'text' && shape.face === 'numbers' && ['20', '80'].includes(shape.text),
    );
    const ofDepth = numbers.filter((shape) => shape.is === 'text' && shape.x < 10);
    const [twenty, eighty] = ['20', '80'].map((text) =>
      ofDepth.find((shape) => shape.is === 'text' && shape.text === text),
    );
    expect(twenty?.is === 'text' && eighty?.is === 'text' && twenty.y < eighty.y).toBe(true);
  });

  it('shows readings within the axes and no others', () => {
    expect(picture.shapes.filter(({ is }) => is === 'circle')).toHaveLength(2 + 1);
  });

  it('needs no legend where there is one thing', () => {
    const alone = chart({ ...input, curves: input.curves.slice(0, 1), points: [], bands: [] });
    expect(texts(alone.shapes)).not.toContain('with two stages');
    expect(alone.height).toBeLessThan(picture.height);
  });

  it('of the same numbers gives the same bytes', () => {
    expect(toSvg(chart(structuredClone(input)), themes.sun)).toBe(toSvg(picture, themes.sun));
  });

  it('tells lines apart without their colour', () => {
    const all = [
      ...Array.from({ length: 6 }, (_, at) => line(`whole ${at}`, 1 + at)),
      ...Array.from({ length: 4 }, (_, at) => line(`dashed ${at}`, 1 + at, true)),
    ];
    const looks = curveStrokes(all).map(({ dash = [], width }: Stroke) => `${dash.join(' ')} ${width}`);
    expect(new Set(looks).size).toBe(all.length);
  });

  it('writes a simple unit bare and a compound one in brackets (ISO 80000-1, 7.1.4; from memory)', () => {
    const axis = { label: 'density', unit: 'kg/m3', from: 300, to: 920 };
    expect(axisWords(axis, 0)).toBe('density / (kg/m³)');
    expect(axisWords({ ...axis, label: 'depth', unit: 'm' }, 0)).toBe('depth / m');
    expect(axisWords({ ...axis, label: 'rate', unit: '1/s' }, -9)).toBe('rate / (10⁻⁹\u00a01/s)');
    expect(axisWords({ ...axis, label: 'share', unit: '1' }, 0)).toBe('share');
  });

  it('refuses a line of which nothing would be seen, and a chart that shows nothing', () => {
    const away = { ...line('far away', 0), at: [[200, 300] as const, [210, 310] as const] };
    expect(() => chart({ ...input, curves: [away] })).toThrow('Nothing of "far away" lies within');
    expect(() => chart({ ...input, curves: [], points: [] })).toThrow('shows nothing');
  });
});
