import { describe, expect, it } from 'vitest';
import { corrections, stretch } from './counters.ts';
import { order } from './order.ts';
import type { CableData, DepthReadings } from './readings.ts';
import { solveDepths } from './solve.ts';

const cable = (stiffness: number, perMetre: number, mass: number): CableData => ({
  stiffness,
  weightPerMetre: perMetre * 9.80665,
  load: mass * 9.80665,
  expansion: 1.2e-5,
  calibratedAt: 10,
});
const year = 31_557_600_000;

describe('stretch of the cable', () => {
  // (F L + w L^2/2)/(EA), elementary mechanics; computed by hand to the micrometre
  it.each([
    [100, 4e5, 0.115, 60, 0.161196809],
    [200, 4e5, 0.115, 60, 0.350587738],
    [150, 1.2e6, 0.2, 100, 0.140970594],
  ])('of %d m, EA %d N, %d kg/m, %d kg is as the formula says', (length, stiffness, perMetre, mass, want) => {
    expect(stretch(cable(stiffness, perMetre, mass), length)).toBeCloseTo(want, 8);
  });
  it('of steel 25 K and 20 K colder than calibrated, 150 m, is 45 mm and 36 mm shorter', () => {
    const bare = { ...cable(1e30, 0, 0) };
    expect(stretch(bare, 150, -15)).toBeCloseTo(-0.045, 9);
    expect(stretch(bare, 150, -10)).toBeCloseTo(-0.036, 9);
  });
});

describe('corrections', () => {
  const readings: DepthReadings = {
    runs: [
      { id: '1', from: 0, to: 40, epoch: 0 },
      { id: '2', from: 40, to: 80, epoch: year },
    ],
    pieces: [],
    soundings: [{ id: 's', afterRun: '2', depth: 80, sd: 0.03 }],
    strain: { depth: [0, 40, 120], rate: [-2e-3, -1e-3, -1e-3] },
  };
  it('bring depths of a year later back to the first run: compression has raised them by the rate summed from the top', () => {
    const { to, from, sounding } = corrections(order(readings));
    // 0 to 40 m: 1.5e-3 a year on average; 40 to 80 m: 1e-3
    expect(to[1]).toBe(0);
    expect(from[2]).toBeCloseTo(40 * 1.5e-3, 12);
    expect(to[2]).toBeCloseTo(40 * 1.5e-3 + 40 * 1e-3, 12);
    expect(sounding[0]).toBeCloseTo(0.1, 12);
  });
  it('are none where the reference epoch is that of the run', () => {
    const { to } = corrections(order({ ...readings, referenceEpoch: year }));
    expect(to[2]).toBe(0);
    expect(to[1]).toBeCloseTo(-40 * 1.5e-3, 12);
  });
  it('take the height of a zero off: 1 m higher reads 1 m more', () => {
    const zeros = [
      { id: 'a', height: 0.2, sd: 0.01, fromRun: '1' },
      { id: 'b', height: 1.2, sd: 0.01, fromRun: '2' },
    ];
    const { from, to } = corrections(
      order({ ...readings, runs: readings.runs.map(({ epoch: _, ...run }) => run), zeros }),
    );
    expect([from[1], to[1], from[2], to[2]]).toEqual([0, 0, -1, -1]);
    const named = corrections(
      order({ ...readings, runs: [{ id: '1' }, { id: '2', zero: 'a', from: 1, to: 2 }], zeros }),
    );
    expect(named.from[2]).toBe(0);
  });
});

describe('solveDepths with what is known of cable, temperature and strain', () => {
  const runs = Array.from({ length: 20 }, (_, i) => ({
    id: `${i + 1}`,
    from: 5 * i,
    to: 5 * (i + 1),
    cableTemperature: -20,
  }));
  const lengths = runs.map(({ id }) => ({
    id,
    run: id,
    length: 4.995,
    topBreak: 'fits' as const,
    temperature: -5,
  }));
  const plain: DepthReadings = { runs, pieces: lengths, soundings: [] };
  it("a cable that stretches by 16 cm at 100 m brings the hole's bottom nearly that much deeper where the counter is all there is", () => {
    const alone = { ...plain, pieces: [] };
    const before = solveDepths(alone).runs[19].holeBottom.value;
    const { expansion: _, ...data } = cable(4e5, 0.115, 60);
    const after = solveDepths({ ...alone, cable: { ...data, expansion: 0 } }).runs[19].holeBottom.value;
    expect(after - before).toBeCloseTo(0.161, 2);
  });
  it('core that was measured 15 K warmer than the hole was longer by 0.75 mm a metre', () => {
    const cold = solveDepths({ ...plain, holeTemperature: -20 });
    const before = solveDepths(plain);
    const length = (solved: typeof before) => solved.pieces[9].bottom.value - solved.pieces[9].top.value;
    // iceExpansion x 15 K x 4.995 m; the way of the run is shared with other terms
    expect(length(before) - length(cold)).toBeGreaterThan(0);
    expect(length(before) - length(cold)).toBeLessThan(1.05 * 4.989e-5 * 15 * 4.995);
  });
});
