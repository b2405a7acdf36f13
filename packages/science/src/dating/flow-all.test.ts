import { describe, expect, it } from 'vitest';
import { dansgaardJohnsen } from './dansgaard-johnsen.ts';
import { flowAgeAll, flowLayerAll } from './flow-all.ts';
import { nye } from './nye.ts';
import { twoParameter } from './two-parameter.ts';

const flow = { thickness: 650, accumulation: 0.42 };
const models = [nye(flow), dansgaardJohnsen({ ...flow, kink: 130 }), twoParameter({ ...flow, p: 0.9 })];
const depths = Float64Array.from({ length: 10_000 }, (_, i) => ((i * 7919) % 10_000) * 0.064);

describe('flow models at many depths', () => {
  for (const model of models)
    it(`${model.name}: each depth as by itself, in any order, into the array that was given`, () => {
      const out = new Float64Array(depths.length);
      expect(flowAgeAll(model, depths, out)).toBe(out);
      for (const i of [0, 1, 777, 9999]) expect(out[i]).toBe(model.age(depths[i]));
      flowLayerAll(model, depths, out);
      for (const i of [0, 1, 777, 9999]) expect(out[i]).toBe(model.layer(depths[i]));
    });

  it('refuses too little room, and a depth that the model refuses', () => {
    expect(() => flowAgeAll(models[0], depths, new Float64Array(3))).toThrow(
      /room for 3 results; allowed: 10000/,
    );
    expect(() => flowAgeAll(models[0], Float64Array.of(1, 649), new Float64Array(2))).toThrow(
      /depth is 649 m/,
    );
  });
});
