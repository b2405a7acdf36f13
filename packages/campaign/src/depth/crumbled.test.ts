import { describe, expect, it } from 'vitest';
import { opened } from '../device.suite.ts';
import { standingPieces, standingRuns } from '../find.ts';
import { crumbledLength, massPerMetre, netMass } from './crumbled.ts';

/** Invented pieces of one run: net grams and centimetres. */
function run(measured: readonly (readonly [grams: number, centimetres: number])[], crumbs: string) {
  const { phone, hole } = opened('phone');
  const id = phone.log('run', { number: '1', from: '0', to: '0.9 m' }, hole);
  measured.forEach(([grams, centimetres], at) => {
    const readings = { number: String(at + 1), topBreak: 'fits', length: `${centimetres} cm` };
    phone.log('piece', { ...readings, mass: `${grams + 410} g`, tare: '410 g' }, hole, id);
  });
  phone.log(
    'piece',
    { number: '9', topBreak: 'unsure', ice: 'crumbled', mass: crumbs, tare: '410 g' },
    hole,
    id,
  );
  const pieces = standingRuns(phone.book.holeView(hole)!).flatMap((one) => standingPieces(one));
  return { pieces, crumbled: pieces.at(-1)! };
}

describe('crumbledLength', () => {
  it('is the mass over the mass per metre of its measured neighbours', () => {
    const { pieces, crumbled } = run(
      [
        [1360, 20],
        [2040, 30],
        [1020, 15],
        [2720, 40],
      ],
      '1090 g',
    );
    expect(netMass(crumbled)).toBeCloseTo(0.68, 9);
    const length = crumbledLength(crumbled, massPerMetre(pieces))!;
    // 6.8 kg to the metre in all four.
    expect(length.value).toBeCloseTo(0.1, 9);
    expect(length.sd).toBeCloseTo(0.005, 9);
  });

  it('is not led astray by one neighbour with a wrong mass', () => {
    const { pieces, crumbled } = run(
      [
        [1360, 20],
        [2040, 30],
        [1020, 15],
        [2720, 40],
        [13600, 20],
      ],
      '1090 g',
    );
    expect(crumbledLength(crumbled, massPerMetre(pieces))!.value).toBeCloseTo(0.1, 9);
  });

  it('is not given where too few neighbours were measured', () => {
    const { pieces, crumbled } = run(
      [
        [1360, 20],
        [2040, 30],
      ],
      '1090 g',
    );
    expect(crumbledLength(crumbled, massPerMetre(pieces))).toBeNull();
  });

  it('is none for a mass that no balance shows or no barrel holds', () => {
    const measured = [20, 30, 15].map((cm) => [68 * cm, cm] as const);
    for (const crumbs of ['99999999999999999999999999999999999999 t', '90 kg', '300 g']) {
      const { pieces, crumbled } = run(measured, crumbs);
      expect(crumbledLength(crumbled, massPerMetre(pieces))).toBeNull();
    }
  });
});
