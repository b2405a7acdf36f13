import { catalogue } from '@firnbook/science/relations';
import { describe, expect, it } from 'vitest';
import { firnbook } from '../try.suite.ts';

describe('firnbook calc', () => {
  it('lists every relation by subject, and says the same to programs', async () => {
    const { code, out } = await firnbook('calc');
    expect(code).toBe(0);
    for (const relation of Object.values(catalogue).flat()) expect(out).toContain(relation.name);
    const listed = JSON.parse((await firnbook('calc', '--json')).out) as readonly { name: string }[];
    expect(listed).toHaveLength(Object.values(catalogue).flat().length);
  });

  it('gives density, age and close-off of firn (Herron & Langway 1980, case integrated as a differential equation)', async () => {
    const words = [
      'depth=20 m',
      'temperature=-20 °C',
      'accumulation=0.5 m w.e./a',
      'surfaceDensity=0.36 g/cm³',
    ];
    const { code, out } = await firnbook('calc', 'herron-langway', ...words, '--json');
    expect(code).toBe(0);
    const { results, source } = JSON.parse(out);
    expect(results.density.value).toBeCloseTo(608.448, 2);
    expect(results.age.value).toBeCloseTo(20.5868, 3);
    expect(source).toContain('1980');
  });

  it('carries uncertainties through and names their parts (density of a piece, 589.941(2.801) kg/m3)', async () => {
    const words = ['mass=4.20 ± 0.005 kg', 'diameter=98.2(2) mm', 'length=94.0(2) cm'];
    const { out } = await firnbook('calc', 'piece-density', ...words);
    expect(out).toMatch(/589\.9 ± 2\.8 kg\/m3/);
    expect(out).toMatch(/of this .*diameter/);
    expect(out).toContain('How: docs/method/piece-density.md');
  });

  it('says what a relation takes where it is named alone, with ranges and why', async () => {
    const { code, out } = await firnbook('calc', 'hole-closure');
    expect(code).toBe(0);
    expect(out).toMatch(/temperature .*-50 to 0 \(Cuffey & Paterson 2010, Table 3\.4\)/);
    expect(out).toContain('Caution: ');
  });

  it.each([
    [['nye'], /no relation "nye"\. Did you mean nye-age, nye-depth/],
    [['herronlangway'], /Did you mean herron-langway, /],
    [['hole-closur'], /Did you mean hole-closure, hole-closure-along/],
    [['Hole_Closure'], /Did you mean hole-closure, /],
    [['dansgard-age'], /Did you mean .*dansgaard-johnsen-age/],
    [['Wahba'], /no relation "Wahba"\. "firnbook calc" lists all/],
    [['bedrock travel'], /Did you mean radar-/],
    [['nye-age', 'depth=100 m'], /thickness, accumulation are missing/],
    [
      ['nye-age', 'depth=100', 'thickness=500 m', 'accumulation=0.4 m/a'],
      /nye-age, depth: the unit is missing/,
    ],
    [
      ['nye-age', 'depth=100 kg', 'thickness=500 m', 'accumulation=0.4 m/a'],
      /"kg" is a mass; allowed: a length/,
    ],
    [['nye-age', 'depth=600 m', 'thickness=500 m', 'accumulation=0.4 m/a'], /depth is 600 m/],
    [['nye-age', 'deep=1 m'], /nye-age takes no "deep"/],
    [['nye-age', '100'], /"100" is no name=value/],
    [
      ['piece-density', 'mass=-1 kg', 'diameter=98 mm', 'length=1 m'],
      /piece-density, mass: .* is -1 kg; allowed: /,
    ],
    [['ice-properties', 'temperature=5 °C'], /temperature.*allowed/],
  ])('refuses %j, saying what, where, and what would do', async (words, complaint) => {
    const { code, out, err } = await firnbook('calc', ...words);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toMatch(complaint);
  });
});
