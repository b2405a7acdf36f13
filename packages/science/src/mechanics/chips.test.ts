import { describe, expect, it } from 'vitest';
import { chipsOfRun, runThatFills } from './chips.ts';

describe('chips of a run', () => {
  it('are what an independent computation gives', () => {
    // recomputed in Python: hole, core, length m; ice, chips kg/m3; kerf m2, chips kg, litres, bulking, core kg
    for (const [hole, core, length, density, chipDensity, kerf, mass, litres, bulking, coreMass] of [
      [0.126, 0.1, 1.0, 900, 500, 0.004614999, 4.1535, 8.306999, 1.8, 7.068583],
      [0.13, 0.098, 1.0, 550, 450, 0.005730265, 3.151646, 7.003657, 1.222222, 4.14863],
      [0.105, 0.075, 0.8, 900, 450, 0.00424115, 3.053628, 6.78584, 2.0, 3.180863],
    ]) {
      const chips = chipsOfRun({ hole, core, length, density, chipDensity });
      expect(chips.kerf).toBeCloseTo(kerf, 8);
      expect(chips.mass).toBeCloseTo(mass, 5);
      expect(1000 * chips.volume).toBeCloseTo(litres, 5);
      expect(chips.bulking).toBeCloseTo(bulking, 6);
      expect(chips.coreMass).toBeCloseTo(coreMass, 6);
    }
  });

  it('and core together are the ice that was in the hole', () => {
    const { mass, coreMass } = chipsOfRun({
      hole: 0.117,
      core: 0.082,
      length: 0.77,
      density: 640,
      chipDensity: 430,
    });
    expect(mass + coreMass).toBeCloseTo((Math.PI / 4) * 0.117 ** 2 * 0.77 * 640, 9);
  });

  it('fill a chamber at the length that is said', () => {
    const run = { hole: 0.126, core: 0.1, density: 870, chipDensity: 480 };
    const length = runThatFills(0.0075, run);
    expect(chipsOfRun({ ...run, length }).volume).toBeCloseTo(0.0075, 12);
  });

  it('refuse a core as wide as the hole, grams in litres, a chamber of nothing', () => {
    const run = { hole: 0.126, core: 0.126, length: 1, density: 900, chipDensity: 500 };
    expect(() => chipsOfRun(run)).toThrow(/inner diameter is 0.126 m; allowed: 0 m to below the outer one/);
    expect(() => chipsOfRun({ ...run, core: 0.1, chipDensity: 0.5 })).toThrow(/density of the chips is 0.5/);
    expect(() => runThatFills(0, { ...run, core: 0.1 })).toThrow(/above 0 to 1 m3/);
  });
});
