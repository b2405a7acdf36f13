import { defaultAssumptions } from '@firnbook/science/depth';
import { describe, expect, it } from 'vitest';
import { opened } from '../device.suite.ts';
import { depthAssumptions, holeTemperature } from './assumptions.ts';
import { settingsKind } from './schema.ts';

describe('depthAssumptions', () => {
  it('are the usual ones until a person sets others for the hole, in whatever unit', () => {
    const { phone, hole } = opened('phone');
    const now = () => depthAssumptions(phone.book.holeView(hole)!);
    expect(now()).toBe(defaultAssumptions);
    const settings = phone.log('depth settings', { lengthSdIce: '2 mm', cableScaleSd: '0,2 %' }, hole);
    expect(now()).toEqual({ ...defaultAssumptions, lengthSdIce: 0.002, cableScaleSd: 0.002 });
    phone.do({ do: 'correct', thing: settings, readings: { lengthSdIce: '-1 mm' }, reason: 'a slip' });
    expect(now().lengthSdIce).toBe(defaultAssumptions.lengthSdIce);
  });

  it('logged twice, the newest that says one counts for it; what a withdrawn one says does not', () => {
    const { phone, hole } = opened('phone');
    const now = () => depthAssumptions(phone.book.holeView(hole)!);
    const settings = (readings: Record<string, string>) => phone.log('depth settings', readings, hole);
    settings({ lengthSdIce: '2 mm', holeTemperature: '-20' });
    const second = settings({ lengthSdIce: '4 mm', firnTo: '50 m', fillMean: '0 cm' });
    const usual = defaultAssumptions;
    expect(now()).toEqual({ ...usual, lengthSdIce: 0.004, firnTo: 50 });
    expect(holeTemperature(phone.book.holeView(hole)!)).toBe(-20);
    phone.do({ do: 'withdraw', thing: second, reason: 'of hole C' });
    expect(now()).toEqual({ ...usual, lengthSdIce: 0.002 });
  });

  it('every setting but the temperature of the hole is an assumption that the solver knows', () => {
    const unknown = settingsKind.fields
      .map(({ name }) => name)
      .filter((name) => !(name in defaultAssumptions));
    expect(unknown).toEqual(['holeTemperature']);
  });
});
