import { describe, expect, it } from 'vitest';
import { insulations } from './insulation.ts';

describe('insulation by name', () => {
  it('conducts as the suppliers say: EPS 0.040 and 0.037, XPS 0.027, PUR 0.020, phenolic 0.027 W/m/K', () => {
    expect(insulations['EPS, 15 kg/m3'].conductivity).toBe(0.04);
    expect(insulations['EPS, 30 kg/m3'].conductivity).toBe(0.037);
    expect(insulations.XPS.conductivity).toBe(0.027);
    expect(insulations['PUR, new'].conductivity).toBe(0.02);
    expect(insulations['phenolic foam'].conductivity).toBe(0.027);
  });

  it('gets worse with age: polyurethane by 40 %, a vacuum panel fivefold', () => {
    expect(insulations['PUR, aged'].conductivity / insulations['PUR, new'].conductivity).toBeCloseTo(1.4, 9);
    const [fresh, lost] = [insulations['vacuum panel, new'], insulations['vacuum panel, vacuum lost']];
    expect(lost.conductivity / fresh.conductivity).toBeCloseTo(5, 9);
  });

  it('is lighter than anything that is packed in it', () => {
    for (const { density, heatCapacity } of Object.values(insulations)) {
      expect(density).toBeLessThan(250);
      expect(heatCapacity).toBeGreaterThan(500);
    }
  });
});
