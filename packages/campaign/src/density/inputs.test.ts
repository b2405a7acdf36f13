import { describe, expect, it } from 'vitest';
import { opened } from '../device.suite.ts';
import type { DepthView } from '../view.ts';
import { densityInputs } from './inputs.ts';
import { densityView } from './view.ts';

/** Invented: eight pieces of half a metre, weighed, and a melt layer told from either end of the first. */
function weighed() {
  const { phone, hole } = opened('phone');
  const run = phone.log('run', { number: '1', from: '0 m', to: '4 m' }, hole);
  const pieces = Array.from({ length: 8 }, (_, at) =>
    phone.log(
      'piece',
      {
        number: String(at + 1),
        length: '50 cm',
        topBreak: 'fits',
        mass: `${1.6 + 0.05 * at} kg`,
        diameterTop: '98 mm',
      },
      hole,
      run,
    ),
  );
  const end = (value: number) => ({ value, sd: 0.01, min: value - 0.02, max: value + 0.02 });
  const depths = {
    pieces: Object.fromEntries(pieces.map((id, at) => [id, { top: end(at / 2), bottom: end((at + 1) / 2) }])),
  } as unknown as DepthView;
  const first = { piece: pieces[0]!, what: 'melt layer', thickness: '20 mm' };
  phone.log('feature', { ...first, at: '100 mm', end: 'top' }, hole);
  phone.log('feature', { ...first, at: '100 mm', end: 'bottom' }, hole);
  const inputs = () => densityInputs(phone.book.holeView(hole)!, phone.book.view(), depths);
  return { phone, hole, run, pieces, inputs };
}

describe('densityInputs', () => {
  it('says all that the view is made of, and passes to another thread', () => {
    const { inputs } = weighed();
    const elsewhere = densityView(structuredClone(inputs()));
    expect(elsewhere.profile.length).toBeGreaterThan(2);
    expect(elsewhere.melt?.byLength.value).toBeCloseTo((100 * 0.04) / 4, 6);
    expect(elsewhere).toEqual(densityView(inputs()));
  });

  it('lays a melt layer from the end of the piece that was named', () => {
    const { inputs } = weighed();
    expect(inputs().melt.map(({ top, bottom }) => [top, bottom].map((at) => at.toFixed(3)))).toEqual([
      ['0.100', '0.120'],
      ['0.380', '0.400'],
    ]);
  });

  it('lays a melt layer on what its piece turned out to be, and none on a piece without a depth or a made-up one', () => {
    const { phone, hole, run, pieces, inputs } = weighed();
    const twin = phone.log('piece', { number: '2', topBreak: 'fits' }, hole, run);
    phone.log(
      'feature',
      { piece: twin, what: 'melt layer', end: 'top', at: '5 cm', thickness: '1 cm' },
      hole,
    );
    const readings = { piece: '__proto__', what: 'melt layer', end: 'top', at: '1 cm', thickness: '1 cm' };
    phone.write({ kind: 'feature.logged', body: { hole, readings } });
    expect(inputs().melt).toHaveLength(2);
    phone.do({ do: 'join', into: pieces[1]!, from: twin, reason: 'one piece' });
    expect(inputs().melt[2]!.top).toBeCloseTo(0.55, 9);
  });
});
