import { describe, expect, it } from 'vitest';
import { opened } from '../device.suite.ts';
import type { DepthView } from '../view.ts';
import { densityInputs } from './inputs.ts';
import { densityReadings } from './readings.ts';
import { densityView, waterAt } from './view.ts';

const DIAMETER = 0.098;

/** Invented: pieces of half a metre, one below the other, of a density that rises by 3 kg/m³ a metre. */
function core(count: number, change: (at: number) => Readonly<Record<string, string>> = () => ({})) {
  const { phone, hole } = opened('phone');
  phone.log('set-up', { name: 'long barrel' });
  const pieces: Record<string, { readonly top: number; readonly bottom: number }> = {};
  for (let at = 0; at < count; at++) {
    const run = phone.log('run', { number: String(at + 1) }, hole);
    const density = 450 + 3 * (at * 0.5 + 0.25);
    const grams = density * (Math.PI / 4) * DIAMETER ** 2 * 0.5 * 1000 + 412;
    const readings = {
      number: '1',
      topBreak: 'fits',
      length: '50,0 cm',
      mass: `${grams.toFixed(0)} g`,
      tare: '412 g',
      diameterTop: '98,0 mm',
      diameterBottom: '98.0 mm',
      ...change(at),
    };
    const id = phone.log('piece', readings, hole, run);
    pieces[id] = { top: at * 0.5, bottom: (at + 1) * 0.5 };
  }
  const estimate = (value: number) => ({ value, sd: 0.01, min: value, max: value });
  const depths = {
    pieces: Object.fromEntries(
      Object.entries(pieces).map(([id, { top, bottom }]) => [
        id,
        { top: estimate(top), bottom: estimate(bottom) },
      ]),
    ),
  } as unknown as DepthView;
  return {
    phone,
    hole,
    depths,
    ids: Object.keys(pieces),
    view: () => densityView(densityInputs(phone.book.holeView(hole)!, phone.book.view(), depths)),
  };
}

describe('densityView', () => {
  it('gives every weighed piece its density, the profile, and the water down the core', () => {
    const { ids, view } = core(40);
    const shown = view();
    const first = shown.pieces[ids[10]!]!.result!;
    expect(first.density.value).toBeCloseTo(450 + 3 * 5.25, 0);
    expect(shown.flagged).toEqual([]);
    expect(shown.weighed).toBeCloseTo(1, 6);
    // 20 m of a mean of 480 kg/m³ are 9.6 m of water.
    expect(waterAt(shown, 20)!.value).toBeCloseTo(9.6, 2);
    expect(waterAt(shown, 10)!.value).toBeCloseTo(4.65, 2);
    expect(waterAt(shown, 21)).toBeNull();
    const middle = shown.profile[Math.floor(shown.profile.length / 2)]!;
    expect(middle.value).toBeCloseTo(450 + 3 * middle.depth, 0);
  });

  it('flags a piece that lies far off its neighbours, keeps it, and names the reading that is likely wrong', () => {
    const { ids, view } = core(40, (at) => (at === 20 ? { length: '40,0 cm' } : {}));
    const shown = view();
    expect(shown.flagged).toEqual([ids[20]]);
    const { flag } = shown.pieces[ids[20]!]!;
    expect(flag?.what).toBe('off the profile');
    expect(flag?.slips[0]?.reading).toBe('length');
    expect(shown.water.length).toBeGreaterThan(0);
  });

  it('leaves snow off the wall out, and crumbs without a cylinder to divide by', () => {
    const { phone, hole, depths } = core(4, (at) =>
      at === 1 ? { ice: 'wall snow' } : at === 2 ? { ice: 'crumbled' } : {},
    );
    const readings = densityReadings(phone.book.holeView(hole)!, phone.book.view(), depths);
    expect(readings).toHaveLength(3);
    expect(readings[1]).not.toHaveProperty('gross');
    expect(readings[0]).toMatchObject({
      gross: expect.any(Number),
      tare: 0.412,
      lengths: [0.5],
      sawnEnds: 0,
    });
  });

  it('counts saw cuts at both ends, and melt layers by length and by mass', () => {
    const { phone, hole, ids, depths, view } = core(20, (at) => (at === 5 ? { topBreak: 'sawn' } : {}));
    const [above, sawn] = densityReadings(phone.book.holeView(hole)!, phone.book.view(), depths).slice(4, 6);
    expect([above!.sawnEnds, sawn!.sawnEnds]).toEqual([1, 1]);
    expect(view().melt).toBeNull();
    phone.log(
      'feature',
      { piece: ids[3]!, what: 'melt layer', end: 'top', at: '10 cm', thickness: '5 cm' },
      hole,
    );
    phone.log(
      'feature',
      { piece: ids[3]!, what: 'melt layer', end: 'bottom', at: '33 cm', thickness: '4 cm' },
      hole,
    );
    // The second reader saw the same layer: 13 to 17 cm from the top, so 10 to 17 in all.
    const { melt } = view();
    expect(melt!.byLength.value).toBeCloseTo((100 * 0.07) / 10, 6);
    expect(melt!.byMass.value).toBeGreaterThan(melt!.byLength.value);
  });

  it('sets the model of the site beside it where the site is known, and fits it', () => {
    const { phone, view } = core(60);
    expect(view()).toMatchObject({ model: [], fit: null });
    phone.log('site', {
      name: 'saddle',
      temperature: '-17 °C',
      accumulation: '0.4 m',
      surfaceDensity: '0.45 g/cm3',
    });
    const shown = view();
    expect(shown.model[0]).toMatchObject({ value: expect.closeTo(450, 0) });
    expect(shown.fit!.rms).toBeLessThan(shown.fit!.rmsBefore);
    expect(shown.trouble).toBeNull();
  });

  it('before the hole is solved there are densities and no profile', () => {
    const { phone, hole, ids } = core(5);
    const shown = densityView(densityInputs(phone.book.holeView(hole)!, phone.book.view(), null));
    expect(shown.pieces[ids[0]!]!.result).not.toBeNull();
    expect(shown).toMatchObject({ profile: [], water: [], melt: null });
  });
});
