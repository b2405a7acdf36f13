import { describe, expect, it } from 'vitest';
import { QuantityError } from '../quantity-error.ts';
import { catalogue } from './catalogue.ts';
import { evaluate } from './evaluate.ts';
import { parseInput } from './input.ts';
import { relation } from './relation.ts';
import { unitOf } from './unit.ts';

const number = (symbol: string, unit: string, range: readonly [number, number], usual?: number) => ({
  kind: 'number' as const,
  symbol,
  what: symbol,
  unit,
  range,
  because: 'a test',
  ...(usual === undefined ? {} : { usual }),
});

/** rho = 4 m/(pi d^2 L), as in VALUES section 12. */
const cylinder = relation({
  name: 'cylinder',
  title: 'a cylinder',
  page: 'none',
  source: 'geometry',
  takes: {
    mass: number('m', 'kg', [0.001, 100]),
    diameter: number('d', 'm', [0.01, 1]),
    length: number('L', 'm', [0.01, 10], 1),
    way: { kind: 'choice', symbol: '', what: 'way', options: ['Round', 'Square'] },
  },
  gives: { density: { symbol: 'rho', what: 'density', unit: 'kg/m3' } },
  compute: ({ mass, diameter, length, way }) => ({
    density: mass / ((way === 'Round' ? Math.PI / 4 : 1) * diameter ** 2 * length),
  }),
});
const mean = relation({
  name: 'mean',
  title: 'a mean',
  page: 'none',
  source: 'arithmetic',
  takes: {
    values: { kind: 'numbers', symbol: 'x', what: 'x', unit: 'K', range: [0, 400], because: 'a test' },
  },
  gives: { mean: { symbol: 'm', what: 'mean', unit: 'K' }, each: { symbol: 'e', what: 'each', unit: 'K' } },
  compute: ({ values }) => ({ mean: values.reduce((a, b) => a + b, 0) / values.length, each: values }),
  own: () => ({ mean: 0.5 }),
});
const asked = (texts: Readonly<Record<string, string>>, of = cylinder) =>
  evaluate(
    of,
    Object.fromEntries(
      Object.entries(texts).map(([name, text]) => [name, parseInput(of.takes[name]!, text)]),
    ),
  );

describe('evaluate', () => {
  it('carries uncertainties through as the GUM does: density of a piece', () => {
    // VALUES section 12, recomputed independently: 589.941(2.801) kg/m3
    const { density } = asked({
      mass: '4.20 ± 0.005 kg',
      diameter: '98.2(2) mm',
      length: '94.0(2) cm',
    }).results;
    expect(density!.value).toBeCloseTo(589.941, 3);
    expect(density!.sd).toBeCloseTo(2.801, 2);
    expect(density!.parts.map(({ from }) => from)).toEqual(['mass', 'diameter', 'length']);
  });

  it('takes usual values and first variants where nothing is given, and says so', () => {
    const { taken, results } = asked({ mass: '6.55 kg', diameter: '98 mm' });
    expect(taken.length).toMatchObject({ value: 1, usual: true });
    expect(taken.way).toMatchObject({ value: 'Round', usual: true });
    expect(results.density!.sd).toBeNull();
    expect(asked({ mass: '6.55 kg', diameter: '98 mm', way: 'square' }).taken.way!.value).toBe('Square');
  });

  it('moves a series one by one, and adds the scatter of the relation itself', () => {
    const { mean: m, each } = asked({ values: '-20 -10 -15 °C ± 0.3' }, mean).results;
    expect(m!.value).toBeCloseTo(258.15, 9);
    expect(m!.sd).toBeCloseTo(Math.hypot(0.3 / Math.sqrt(3), 0.5), 9);
    expect((each!.sd as number[]).every((sd) => Math.abs(sd - 0.3) < 1e-9)).toBe(true);
  });

  it('uses one side at the edge of a range', () => {
    const { density } = asked({ mass: '99.99 ± 0.1 kg', diameter: '0.5 m', length: '2 m' }).results;
    expect(density!.sd).toBeCloseTo(0.1 / ((Math.PI / 4) * 0.25 * 2), 6);
  });

  it('takes part of an uncertainty that is wider than the range, for the slope', () => {
    const { density } = asked({ mass: '50 ± 80 kg', diameter: '0.5 m', length: '2 m' }).results;
    expect(density!.sd).toBeCloseTo(80 / ((Math.PI / 4) * 0.25 * 2), 6);
  });

  it('names all that is missing at once', () => {
    expect(() => asked({})).toThrow(/cylinder: mass, diameter are missing; allowed: mass: m; diameter: d/);
  });

  it.each([
    [{ mass: '4.2', diameter: '98 mm' }, /unit is missing/],
    [{ mass: '4.2 m', diameter: '98 mm' }, /"m" is a length; allowed: a mass/],
    [{ mass: '-4.2 kg', diameter: '98 mm' }, /m is -4.2 kg; allowed: 0.001 to 100 kg \(a test\)/],
    [{ mass: 'NaN kg', diameter: '98 mm' }, /is no number/],
    [{ mass: '1e999 kg', diameter: '98 mm' }, /Infinity/],
    [{ mass: '4 kg' }, /diameter: d is missing/],
    [{ mass: '4 kg', diameter: '98 mm', way: 'Oval' }, /no variant "Oval"; allowed: Round; Square/],
    [{ mass: '4 ± -1 kg', diameter: '98 mm' }, /standard uncertainty is -1/],
  ])('refuses %j', (texts, words) => {
    expect(() => asked(texts as never)).toThrow(QuantityError);
    expect(() => asked(texts as never)).toThrow(words);
  });

  it('refuses a quantity that the relation does not take', () => {
    expect(() => evaluate(cylinder, { wight: { kind: 'number', value: 1, unit: 'kg' } })).toThrow(
      /takes no "wight"; allowed: mass, diameter, length, way/,
    );
  });

  it('reads series with commas, spaces, or semicolons and decimal commas', () => {
    const read = (text: string) => parseInput(mean.takes.values!, text);
    expect(read('1,2.5,3 K')).toMatchObject({ values: [1, 2.5, 3], unit: 'K' });
    expect(read('1,5; 2,5 K')).toMatchObject({ values: [1.5, 2.5] });
    expect(read('7 8 9 K ± 0.2')).toMatchObject({ values: [7, 8, 9], sd: 0.2 });
    expect(() => read('seven K')).toThrow(QuantityError);
  });
});

describe('the catalogue', () => {
  const all = Object.values(catalogue).flat();
  it('names each relation once, with a page and a source', () => {
    expect(new Set(all.map(({ name }) => name)).size).toBe(all.length);
    for (const { name, page, source } of all) {
      expect(name).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
      expect(`${page} ${source}`.length).toBeGreaterThan(12);
    }
  });

  it('uses units that the table knows, ranges that say why, usual values inside', () => {
    for (const { name, takes, gives } of all) {
      for (const one of Object.values(takes)) {
        if (one.kind === 'choice') expect(one.options.length, name).toBeGreaterThan(0);
        if (one.kind !== 'number' && one.kind !== 'numbers') continue;
        expect(() => unitOf(one.unit, name)).not.toThrow();
        expect(one.because, name).not.toBe('');
        expect(one.range[0], `${name} ${one.symbol}`).toBeLessThan(one.range[1]);
        if (one.kind === 'number' && one.usual !== undefined) {
          expect(one.usual, name).toBeGreaterThanOrEqual(one.range[0]);
          expect(one.usual, name).toBeLessThanOrEqual(one.range[1]);
        }
      }
      for (const { unit } of Object.values(gives)) expect(() => unitOf(unit, name)).not.toThrow();
    }
  });
});
