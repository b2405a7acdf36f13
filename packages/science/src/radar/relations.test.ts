import { describe, expect, it } from 'vitest';
import { called } from '../relations/called.suite.ts';

const layers = { thicknesses: '2 3 5 10 20 60 m', densities: '350 420 500 600 720 890 kg/m3' };
const firn = { temperature: '-28.5 °C', accumulation: '0.25 m w.e./a', surfaceDensity: '340 kg/m3' };

describe('relations of radar', () => {
  it('radar-speed has 1 % of its own (Fujita et al. 2000)', () => {
    const { speed } = called('radar-speed', { density: '550 kg/m3' });
    expect(speed.value).toBeCloseTo(204.67142, 5);
    expect(speed.parts).toEqual([{ from: 'the relation itself', sd: expect.closeTo(2.0467142, 6) }]);
  });

  it('radar-time-layers and radar-depth-layers lead back to each other', () => {
    // recomputed in Python: 1108.29806 ns; 6.90296 m by 168 m/us
    const there = called('radar-time-layers', { ...layers, variant: '168 m/us' });
    expect(there.time.value).toBeCloseTo(1108.29806, 5);
    expect(there.correction.value).toBeCloseTo(6.90296, 5);
    expect(there.correction.sd).toBeCloseTo(93.09704 * Math.SQRT2 * 0.01, 4);
    const back = called('radar-depth-layers', { ...layers, time: `${there.time.value} ns` });
    expect(back.depth.value).toBeCloseTo(100, 9);
    expect(back.depth.sd).toBeCloseTo(1, 9);
  });

  it('radar-time-firn and radar-depth-firn lead back to each other, in microseconds as well', () => {
    const there = called('radar-time-firn', { ...firn, depth: '50 m' });
    expect(there.time.value).toBeCloseTo(501.43334, 4);
    const back = called('radar-depth-firn', { ...firn, time: `${(there.time.value as number) / 1000} us` });
    expect(back.depth.value).toBeCloseTo(50, 6);
  });

  it('radar-thickness takes the speed that is named and says it, with its published uncertainty and scatter', () => {
    const robin = called('radar-thickness', { time: '2500 ns', correction: '8 m' });
    expect(robin.speed.value).toBe(167.7);
    expect(robin.thickness.value).toBeCloseTo(167.7 * 1.25 + 8, 9);
    expect(robin.thickness.sd).toBeCloseTo(Math.hypot(0.3, 1.677) * 1.25, 9);
    const usual = called('radar-thickness', { time: '2500 ns', correction: '8 m', variant: '168 m/us' });
    expect(usual.thickness.sd).toBeCloseTo(1.68 * 1.25, 9);
  });

  it('radar-move-out and radar-midpoint-fit lead back to each other', () => {
    const times = [0, 20, 35, 50].map(
      (apart) =>
        called('radar-move-out', { depth: '80 m', speed: '168 m/us', distance: `${apart} m` }).time
          .value as number,
    );
    expect(times[3]).toBeCloseTo(997.80087, 5);
    const fit = called('radar-midpoint-fit', {
      distances: '0 20 35 50 m',
      times: `${times.join(' ')} ns`,
    });
    expect(fit.speed.value).toBeCloseTo(168, 6);
    expect(fit.depth.value).toBeCloseTo(80, 6);
  });
});
