import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { accumulationOfLayer } from './accumulation-of-layer.ts';
import { dansgaardJohnsen } from './dansgaard-johnsen.ts';
import { flows } from './flow-model.suite.ts';
import { nye } from './nye.ts';
import { twoParameter } from './two-parameter.ts';

describe('accumulation of a layer, its thinning taken out', () => {
  it('is what the model was made with, where the layers are the model’s', () =>
    fc.assert(
      fc.property(
        flows,
        fc.double({ min: 0.05, max: 0.8, noNaN: true }),
        fc.double({ min: 0.01, max: 0.1, noNaN: true }),
        (flow, from, width) => {
          const kink = 0.2 * flow.thickness;
          for (const model of [
            nye(flow),
            dansgaardJohnsen({ ...flow, kink }),
            twoParameter({ ...flow, p: 0.7 }),
          ]) {
            const [top, bottom] = [from * flow.thickness, (from + width) * flow.thickness];
            const years = model.age(bottom) - model.age(top);
            const other = { thickness: flow.thickness, accumulation: 1 };
            const judge =
              model.name === 'Nye 1963'
                ? nye(other)
                : model.name.startsWith('Dansgaard')
                  ? dansgaardJohnsen({ ...other, kink })
                  : twoParameter({ ...other, p: 0.7 });
            const found = accumulationOfLayer(judge, top, bottom, years);
            expect(Math.abs(found / flow.accumulation - 1)).toBeLessThan(1e-9);
          }
        },
      ),
    ));

  // a layer at half depth of Nye's ice is half of what it was: by hand
  it('of 0.5 m in 4 years at half depth, by Nye, is 0.25 m a year but for the layer’s own thickness', () => {
    const model = nye({ thickness: 400, accumulation: 0.31 });
    expect(accumulationOfLayer(model, 199.75, 200.25, 4)).toBeCloseTo(0.25, 5);
  });

  it('holds for accumulation that changed: layers followed year by year down Nye’s ice', () => {
    // every year each layer thins by a/H, whatever a was that year
    const thickness = 300;
    const rates = Array.from({ length: 500 }, (_, i) => (i < 250 ? 0.6 : 0.3));
    const layers: number[] = [];
    for (const a of rates) {
      for (let i = 0; i < layers.length; i++) layers[i]! *= 1 - a / thickness;
      layers.unshift(a);
    }
    const model = nye({ thickness, accumulation: 0.45 });
    let depth = 0;
    layers.forEach((layer, i) => {
      const true0 = rates[rates.length - 1 - i];
      const found = accumulationOfLayer(model, depth, depth + layer, 1);
      // a step of a year at a time, so to the order of a/H
      expect(Math.abs(found / true0 - 1)).toBeLessThan(3e-3);
      depth += layer;
    });
  });

  it('refuses stretches that do not go down and years that are none', () => {
    const model = nye({ thickness: 400, accumulation: 0.31 });
    expect(() => accumulationOfLayer(model, 20, 20, 4)).toThrow(/downwards/);
    expect(() => accumulationOfLayer(model, 20, 21, 0)).toThrow(/years are 0/);
    expect(() => accumulationOfLayer(model, 20, Number.NaN, 3)).toThrow(/downwards/);
  });
});
