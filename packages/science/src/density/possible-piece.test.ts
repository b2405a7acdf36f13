import { describe, expect, it } from 'vitest';
import { evaluate } from '../relations/evaluate.ts';
import { parseInput } from '../relations/input.ts';
import { cylinderDensity } from './cylinder.ts';
import { pieceVerdict, roundPieceDensity } from './possible-piece.ts';
import { densityRelations } from './relations.ts';

const piece = densityRelations.find(({ name }) => name === 'piece-density')!;
const at = (inputs: Record<string, string>) =>
  evaluate(
    piece,
    Object.fromEntries(
      Object.entries(inputs).map(([name, text]) => [name, parseInput(piece.takes[name]!, text)]),
    ),
  ).results;

describe('density of a round piece', () => {
  // 4m/(pi d^2 L) and its relative error, recomputed
  it.each([
    [4.2, 0.0982, 0.94, 589.941, 0.55454454, 2.80058],
    [6.55, 0.098, 0.995, 872.72253, 0.86835891, 4.02615],
    [2.1, 0.075, 0.6, 792.23794, 0.47534276, 5.32773],
  ])('%d kg, %d m across, %d m long: %d kg/m3, %d m w.e., uncertainty %d kg/m3', (m, d, l, rho, we, u) => {
    const found = roundPieceDensity({ mass: m, diameter: d, length: l, temperature: 258.15 });
    expect(found.density).toBeCloseTo(rho, 3);
    expect(found.waterEquivalent).toBeCloseTo(we, 7);
    const { density } = at({
      mass: `${m} ± 0.005 kg`,
      diameter: `${d} ± 0.0002 m`,
      length: `${l} ± 0.002 m`,
    });
    // half the difference of two moves, where the check differentiates: equal to the second order
    expect(Math.abs((density!.sd as number) / u - 1)).toBeLessThan(1e-4);
    const none = { sawnOff: 0, sawnOffSd: 0, missing: 0, missingSd: 0, sharedDiameterSd: 0 };
    const sds = { massSd: 0.005, lengthSd: 0.002, diameterSd: 0.0002 };
    const exact = cylinderDensity({ mass: m, diameter: d, length: l, ...sds, ...none }).density;
    expect(exact.randomSd).toBeCloseTo(u, 4);
  });

  it('says that ice can have a density below that of ice, and which reading matters', () => {
    const { possible } = at({ mass: '6.55(1) kg', diameter: '98.0 ± 0.2 mm', length: '995 ± 2 mm' });
    expect(possible!.value).toBe('ice can have it; the diameter makes most of its uncertainty.');
  });

  it('says that 10 cm too short is denser than ice can be, and names the length', () => {
    const { possible, excess } = at({
      mass: '6.60(1) kg',
      diameter: '98.0 ± 0.2 mm',
      length: '900 ± 2 mm',
      temperature: '-20 °C',
    });
    expect(excess!.value).toBeCloseTo(6.6 / (Math.PI * 0.049 ** 2 * 0.9) - 919.5652, 3);
    expect(possible!.value).toMatch(
      /^denser than ice can be: 52\.\d kg\/m3 above the 919\.6 .*Measure again the length \(a slip there is \d+ % likely\), then/,
    );
  });

  it('calls nothing impossible that lies within 3 uncertainties, by those that were given', () => {
    const above = { mass: '6.92 kg', diameter: '98.0 mm', length: '990 mm' };
    expect(at(above).possible!.value).toMatch(/^it lies 7\.\d kg\/m3 above .* as usual on a bench/);
    expect(
      at({ mass: '6.92(1) kg', diameter: '98.00 ± 0.02 mm', length: '990 ± 1 mm' }).possible!.value,
    ).toMatch(/^denser than ice can be/);
  });

  it('takes the usual uncertainty of those readings alone that have none', () => {
    const round = { mass: 6.92, diameter: 0.098, length: 0.99, temperature: 258.15 };
    expect(pieceVerdict(round, [{ from: 'mass', sd: 1 }])).toMatch(
      /Uncertainty of diameter, length as usual/,
    );
  });

  it('refuses masses below nothing, other units and what is no number', () => {
    const good = { diameter: '98 mm', length: '990 mm' };
    expect(() => at({ ...good, mass: '-1 kg' })).toThrow(/mass of the ice.*0\.001 to 100 kg/);
    expect(() => at({ ...good, mass: '7 m' })).toThrow(/is a length; allowed: a mass/);
    expect(() => at({ ...good, mass: '7' })).toThrow(/the unit is missing/);
    expect(() => at({ ...good, mass: 'NaN kg' })).toThrow(/is no number/);
  });
});
