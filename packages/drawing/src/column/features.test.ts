import { describe, expect, it } from 'vitest';
import { hit } from '../hit.ts';
import { ceredin } from './ceredin.suite.ts';
import { coreColumn } from './column.ts';

const options = { mmPerMetre: 50, window: { from: 26, to: 31 }, width: 90 };
const picture = coreColumn(ceredin, options);
const of = (thing: string) => picture.shapes.filter((shape) => shape.thing === thing);

describe('features in the core', () => {
  it('draws a melt layer to scale, at its depths', () => {
    const [band] = of('melt-32');
    expect(band?.is).toBe('rect');
    if (band?.is !== 'rect') return;
    expect(band.y - picture.scale.head).toBeCloseTo((27.12 - 26) * 50, 9);
    expect(band.h).toBeCloseTo(0.025 * 50, 9);
  });

  it('gives every kind a form of its own, and each can be touched', () => {
    for (const { id, top, bottom } of ceredin.features) {
      expect(of(id).length).toBeGreaterThan(0);
      const y = picture.scale.head + ((top + bottom) / 2 - 26) * 50;
      const x = id === 'other-36' ? coreLeft() + 2.4 : coreLeft() + 12;
      expect(hit(picture, x, y, 4)).toBe(id);
    }
  });

  it('draws nothing of what lies outside of the window', () => {
    const above = coreColumn(ceredin, { ...options, window: { from: 26, to: 27 } });
    expect(above.shapes.some((shape) => shape.thing === 'dust-34')).toBe(false);
  });
});

function coreLeft(): number {
  const crust = of('crust-31')[0];
  return crust?.is === 'line' ? crust.points[0]![0] : 0;
}
