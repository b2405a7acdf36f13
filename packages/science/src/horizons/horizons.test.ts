import { describe, expect, it } from 'vitest';
import { openTable } from '../published-checks.suite.ts';
import { horizonDate } from './date.ts';
import { horizonNamed, horizonsBetween, writtenEvent } from './find.ts';
import { horizonRelations } from './relations.ts';
import { horizons } from './table.ts';

describe('dated horizons', () => {
  it('stand from the youngest to the oldest, each name once, each with where it is from', () => {
    horizons.forEach((one, i) => {
      if (i > 0) expect(one.event.year).toBeLessThanOrEqual(horizons[i - 1].event.year);
      for (const { source, seen } of [one.event, one.deposition]) {
        expect(source.length).toBeGreaterThan(10);
        expect(['read', 'from memory']).toContain(seen);
      }
      expect(one.deposition.from).toBeGreaterThanOrEqual(one.event.year);
      expect(one.deposition.to).toBeGreaterThanOrEqual(one.deposition.from);
      expect(one.deposition.to - one.event.year).toBeLessThanOrEqual(5);
    });
    expect(new Set(horizons.map(({ name }) => name)).size).toBe(horizons.length);
  });

  // eVolv2k v2.1 (Toohey & Sigl 2017)
  it('has Samalas 59.42 ± 10.86 Tg S of July 1257, laid down 1258 to 1259', () => {
    const { sulphur, event, deposition } = horizonNamed('samalas');
    expect(sulphur).toEqual({ value: 59.42, sd: 10.86 });
    expect(writtenEvent(event)).toBe('1257-07-01');
    expect([deposition.from, deposition.to, deposition.seen]).toEqual([1258, 1259, 'from memory']);
  });

  it('lists by years of deposition and by kind', () => {
    const names = (...given: Parameters<typeof horizonsBetween>) =>
      horizonsBetween(...given).map(({ name }) => name);
    expect(names(1950, 2000)).toEqual([
      'Chernobyl',
      'tritium maximum',
      'weapon-test maximum',
      'first weapon-test rise',
    ]);
    expect(names(1813, 1816)).toEqual(['Tambora']);
    expect(names(1816, 1834, 'volcanic')).toEqual(['unidentified 1831', 'Tambora']);
    expect(names(1900, 2000, 'volcanic')).toEqual(['Novarupta (Katmai)']);
    expect(names(1979, 1990, 'weapon tests')).toEqual([]);
    expect(() => horizonsBetween(2000, 1900)).toThrow(/earlier first/);
    expect(() => horizonsBetween(Number.NaN, 1900)).toThrow(/earlier first/);
  });

  it('warns where a horizon misleads', () => {
    expect(horizonNamed('Chernobyl').remark).toMatch(/beta alone must not assign 1986/);
    expect(horizonNamed('Vesuvius').remark).toMatch(/Not Vesuvius/);
    expect(horizonNamed('1458').remark).toMatch(/Kuwae/);
  });

  // JCGM 100:2008, 4.3.7
  it('dates one to the middle of its years, with the spread of an even distribution over them', () => {
    expect(horizonDate(horizonNamed('Tambora'))).toEqual({ year: 1816.5, sd: 1 / Math.sqrt(12) });
    expect(horizonDate(horizonNamed('1108'))).toEqual({ year: 1111, sd: 6 / Math.sqrt(12) });
  });

  it('finds names without accents, and refuses those that none or several have', () => {
    expect(horizonNamed('Eldgja').event.year).toBe(939);
    expect(horizonNamed('VEIDIVOTN').event.year).toBe(1477);
    expect(() => horizonNamed('Olympus')).toThrow(/there is no "Olympus"/);
    expect(() => horizonNamed('unidentified')).toThrow(/may be 3 of them.*1831; unidentified 1809/);
    expect(() => horizonNamed('')).toThrow(/there is no/);
  });

  it('answers by name and by years on the command line', () => {
    const [one, several] = horizonRelations;
    expect(one!.compute({ name: 'Laki' } as never)).toMatchObject({
      event: '1783-06-15',
      sulphur: 20.81,
      deposition: 'late 1783, with the tephra',
      from: 1783,
    });
    expect(one!.own?.({ name: 'Laki' } as never, {} as never)).toMatchObject({ sulphur: 7.04 });
    expect(Object.keys(one!.own?.({ name: 'Chernobyl' } as never, {} as never) ?? {})).toEqual(['year']);
    expect(several!.compute({ from: 1900, to: 2000, kind: 'reactor' } as never)).toMatchObject({ count: 1 });
  });
});

const file = openTable('../reference/evolv2k_v2.1.csv', ',');
describe.skipIf(file === null)('against the file of eVolv2k v2.1', () => {
  const rows = (file ?? []).map((row) => ({
    year: row.number('yearCE'),
    month: row.number('month'),
    day: row.number('day'),
    ssi: row.number('ssi'),
    sd: row.number('sigma_ssi'),
  }));
  it('which has 271 events', () => expect(rows).toHaveLength(271));
  const ours = horizons.filter(({ event }) => event.source.startsWith('eVolv2k'));
  it('of which 22 are here', () => expect(ours).toHaveLength(22));
  for (const { name, event, sulphur } of ours)
    it(`${name}: date and sulphur are the file's, 1 January is unknown`, () => {
      const row = rows.find(({ year, ssi }) => year === event.year && ssi === sulphur!.value)!;
      expect(row).toBeDefined();
      expect(sulphur).toEqual({ value: row.ssi, sd: row.sd });
      const isUnknown = row.month === 1 && row.day === 1;
      expect([event.month, event.day]).toEqual(isUnknown ? [null, null] : [row.month, row.day]);
    });
});
