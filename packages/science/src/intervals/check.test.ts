import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkIntervals } from './check.ts';
import { checkEitherEnd } from './depth-side.ts';
import { halfUnits, type Printed } from './rounding.ts';
import type { IntervalRow, Misfit } from './rows.ts';

/** A figure as printed: value and half a unit in its last place. */
const figure = (text: string) => ({
  value: Number(text),
  half: 0.5 * 10 ** -(text.split('.')[1]?.length ?? 0),
});

const row = (top: string, bottom: string, length = '', bag = ''): IntervalRow => ({
  ...(top && { top: figure(top) }),
  ...(bottom && { bottom: figure(bottom) }),
  ...(length && { length: figure(length) }),
  ...(bag && {
    bag: { first: Number(bag.split('-')[0]), last: Number(bag.split('-').at(-1)) },
  }),
});

const brief = (misfits: readonly Misfit[]) =>
  misfits.map(({ what, row: at, size }) => `${what} ${at} ${size === null ? '' : size.toFixed(4)}`);

const found = (rows: readonly IntervalRow[], options = {}) => brief(checkIntervals(rows, options).misfits);

describe('checkIntervals on tables worked out by hand', () => {
  it('reports nothing where everything closes', () => {
    expect(found([row('0.00', '0.55'), row('0.55', '1.10'), row('1.10', '1.63')])).toEqual([]);
  });

  it('reports a gap and an overlap with place and size', () => {
    const { misfits } = checkIntervals([row('0.00', '0.55'), row('0.60', '1.10'), row('1.07', '1.63')]);
    expect(brief(misfits)).toEqual(['gap 1 0.0500', 'overlap 2 0.0300']);
    expect(misfits[0]).toMatchObject({ before: 0, from: 0.55, to: 0.6 });
    expect(misfits[1]).toMatchObject({ before: 1, from: 1.07, to: 1.1 });
  });

  it('takes one centimetre between figures of two decimals for a gap, since no depth rounds to both', () => {
    expect(found([row('0.00', '0.55'), row('0.56', '1.10')])).toEqual(['gap 1 0.0100']);
  });

  it('reports nothing where rounding alone explains it: 0.254 m is 0.3 m to one decimal', () => {
    expect(found([row('0.0', '0.3'), row('0.254', '0.511')])).toEqual([]);
  });

  it('reports a length that is not bottom less top, beyond the rounding of all three', () => {
    expect(
      found([row('0.00', '0.55', '0.55'), row('0.55', '1.10', '0.52'), row('1.10', '1.64', '0.55')]),
    ).toEqual(['length 1 -0.0300']);
  });

  it('reports a row whose ends are exchanged once, not as a gap and an overlap as well', () => {
    expect(found([row('0.00', '0.55'), row('1.10', '0.55'), row('1.10', '1.65')])).toEqual([
      'reversed 1 0.5500',
    ]);
  });

  it('reports a row that is there twice once', () => {
    expect(
      found([row('0.00', '0.55'), row('0.55', '1.10'), row('0.55', '1.10'), row('1.10', '1.65')]),
    ).toEqual(['duplicate 2 0.5500']);
  });

  it('lets rows lie inside a longer one and go on below it', () => {
    expect(found([row('0.00', '1.00'), row('0.20', '0.50'), row('1.00', '2.00')])).toEqual([
      'overlap 1 0.3000',
    ]);
  });

  it('reports a bottom that is too deep once, not at every row below', () => {
    expect(
      found([
        row('0.00', '1.00'),
        row('1.00', '12.00'),
        row('2.00', '3.00'),
        row('3.00', '4.00'),
        row('4.00', '5.00'),
      ]),
    ).toEqual(['overlap 2 10.0000']);
  });

  it('reads a table that runs upwards from its end, and a shuffled one by depth', () => {
    const rows = [row('0.00', '0.55'), row('0.55', '1.10'), row('1.12', '1.65'), row('1.65', '2.00')];
    expect(checkIntervals(rows.toReversed())).toMatchObject({ order: 'upwards', misfits: [{ row: 1 }] });
    const shuffled = [rows[2], rows[0], rows[3], rows[1]];
    expect(checkIntervals(shuffled)).toMatchObject({ order: 'sorted', misfits: [{ what: 'gap', row: 0 }] });
  });

  it('adds lengths between recorded depths and reports what they do not fill', () => {
    const rows = [
      row('0.000', '', '0.400'),
      row('', '', '0.350'),
      row('', '', '0.230'),
      row('1.020', '', '0.300'),
    ];
    expect(found(rows)).toEqual(['gap 3 0.0400']);
  });

  it('does not count a row with empty depths as a gap', () => {
    expect(found([row('0.00', '0.55', '', '1'), row('', '', '', '2'), row('1.10', '1.65', '', '3')])).toEqual(
      [],
    );
  });

  it('compares a recorded bottom with what the lengths above come to', () => {
    const rows = [row('', '0.400', '0.400'), row('', '0.750', '0.350'), row('', '1.040', '0.250')];
    const { misfits } = checkIntervals(rows);
    expect(brief(misfits)).toEqual(['gap 2 0.0400']);
    expect(misfits[0]).toMatchObject({ before: 1, from: 1, to: 1.04 });
  });

  it('finds whether one recorded depth is top or bottom of the piece', () => {
    const lengths = [0.4, 0.35, 0.25, 0.5];
    const rows = lengths.map((value, i) => ({
      depth: { value: lengths.slice(0, i + 1).reduce((a, b) => a + b, 0), half: 0.0005 },
      length: { value, half: 0.0005 },
    }));
    expect(checkEitherEnd(rows)).toMatchObject({ side: 'bottom', closure: { misfits: [] } });
  });
});

describe('checkIntervals on bags (bag k from (k - 1) L to k L)', () => {
  const bags = (tops: readonly string[]) => tops.map((top, i) => row(top, '', '', String(i + 1)));

  it('finds the length of a bag from rounded depths', () => {
    const rows = Array.from({ length: 40 }, (_, i) => row((i * 0.333).toFixed(2), '', '', String(i + 1)));
    expect(checkIntervals(rows)).toMatchObject({ bagLength: { value: 0.333, half: 0 }, misfits: [] });
  });

  it('reports a missing bag as the gap it leaves', () => {
    const rows = bags(['0.00', '0.55', '1.10', '1.65', '2.20', '2.75']).filter((_, i) => i !== 2);
    expect(found(rows)).toEqual(['gap 2 0.5500']);
  });

  it('reports a wrong bag number in a short table as such, and finds L from the rows themselves', () => {
    const rows = [
      row('0.00', '0.55', '', '1'),
      row('0.55', '1.10', '', '2'),
      row('1.10', '1.65', '', '4'),
      row('1.65', '2.20', '', '4'),
    ];
    const { misfits, bagLength } = checkIntervals(rows);
    expect(bagLength?.value).toBe(0.55);
    expect(brief(misfits)).toEqual(['bag 2 -0.5500']);
  });

  it('reports one wrong depth of a bag once', () => {
    expect(found(bags(['0.00', '0.55', '1.20', '1.65', '2.20', '2.75']))).toEqual(['bag 2 0.1000']);
  });

  it('reports depths that move away from the bags at a gap once', () => {
    expect(found(bags(['0.00', '0.55', '1.10', '1.75', '2.30', '2.85', '3.40']))).toEqual(['gap 3 0.1000']);
  });

  it('reports bags counted from another zero once, with the last row that is off', () => {
    const rows = [6, 7, 8, 9].map((k) =>
      row((0.3 + k * 0.55).toFixed(2), (0.85 + k * 0.55).toFixed(2), '', String(k + 1)),
    );
    const { misfits } = checkIntervals(rows, { bagLength: 0.55 });
    expect(brief(misfits)).toEqual(['bag 0 0.3000']);
    expect(misfits[0]?.through).toBe(3);
  });

  it('"bag 215-226" and 4.95 m on one line cannot both be true: 12 bags of 0.55 m are 6.60 m', () => {
    const rows = [row('', '', '0.55', '213'), row('', '', '0.55', '214'), row('', '', '4.95', '215-226')];
    expect(found(rows)).toEqual(['length 2 -1.6500']);
  });

  it('says that it could not find the length of a bag, and checks the rest', () => {
    const rows = [
      row('0.00', '0.31', '', '1'),
      row('0.31', '0.90', '', '2'),
      row('0.95', '2.00', '', '3'),
      row('2.00', '2.22', '', '4'),
    ];
    expect(checkIntervals(rows)).toMatchObject({
      bagLengthUnknown: true,
      misfits: [{ what: 'gap', row: 2 }],
    });
  });

  it('takes several rows to a bag as parts of it', () => {
    const rows = [
      row('0.00', '0.20', '', '1'),
      row('0.20', '0.55', '', '1'),
      row('0.55', '0.80', '', '2'),
      row('0.80', '1.10', '', '2'),
      row('1.10', '1.60', '', '3'),
      row('1.60', '1.65', '', '3'),
    ];
    expect(found(rows, { bagLength: 0.55 })).toEqual([]);
  });
});

describe('checkIntervals, properties', () => {
  const thicknesses = fc.array(fc.integer({ min: 2, max: 3000 }), { minLength: 4, maxLength: 60 });

  /** A table of millimetres in whole numbers, so that its truth is exact. */
  const table = (list: readonly number[], jumps: ReadonlyMap<number, number>, decimals: number) => {
    let depth = 0;
    return list.map((thick, i) => {
      depth += jumps.get(i) ?? 0;
      const top = (depth / 1000).toFixed(decimals);
      depth += thick;
      return row(top, (depth / 1000).toFixed(decimals), (thick / 1000).toFixed(decimals));
    });
  };

  it('reports nothing on a contiguous table, to whatever decimals it is rounded', () => {
    fc.assert(
      fc.property(thicknesses, fc.integer({ min: 0, max: 3 }), (list, decimals) => {
        const misfits = checkIntervals(table(list, new Map(), decimals)).misfits;
        // rows thinner than the rounding print the same top and bottom twice: that is there, and no other kind is
        expect(misfits.filter(({ what }) => what !== 'duplicate')).toEqual([]);
      }),
    );
  });

  it('reports exactly the gaps that were put in, at their rows and with their sizes', () => {
    fc.assert(
      fc.property(
        thicknesses,
        fc.uniqueArray(fc.integer({ min: 1, max: 59 }), { minLength: 1, maxLength: 5 }),
        fc.integer({ min: 1, max: 400 }),
        (list, places, size) => {
          const at = places.filter((place) => place < list.length).sort((a, b) => a - b);
          const rows = table(list, new Map(at.map((place, n) => [place, size + n])), 3);
          expect(found(rows)).toEqual(at.map((place, n) => `gap ${place} ${((size + n) / 1000).toFixed(4)}`));
        },
      ),
    );
  });

  it('reports exactly the overlaps that were put in', () => {
    fc.assert(
      fc.property(thicknesses, fc.integer({ min: 1, max: 59 }), (list, place) => {
        fc.pre(place < list.length);
        const size = Math.min(list[place - 1], list[place]) - 1;
        const rows = table(list, new Map([[place, -size]]), 3);
        expect(found(rows)).toEqual([`overlap ${place} ${(size / 1000).toFixed(4)}`]);
      }),
    );
  });
});

/** Columns of a shared table, printed form kept. */
const shared = (path: string, separator: string | RegExp, columns: readonly number[]) => {
  const file = new URL(`../../../../../shared/data/${path}`, import.meta.url);
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch {
    return null;
  }
  const cells = text
    .split(/\r?\n/)
    .slice(1)
    .map((line) => (typeof separator === 'string' ? line : line.trim()).split(separator))
    .filter((line) => line.length > 1);
  return columns.map((at) => cells.map((line) => line[at]));
};

const figuresOf = (texts: readonly string[]) => {
  const printed: (Printed | null)[] = texts.map((text) => {
    const places = text.split('.')[1] ?? '';
    return { decimals: places.length, endsInZero: places.endsWith('0') };
  });
  const halves = halfUnits(printed);
  return texts.map((text, i) => ({ value: Number(text), half: halves[i] }));
};

const epica = shared('edc_bags/edc3deuttemp2007_trimmed.txt', /\s+/, [0, 1]);
const b31 = shared('b31_b32/B31_Isotope_Age.txt', '\t', [3, 4]);

describe('checkIntervals on published tables', () => {
  // Jouzel et al. 2007, doi:10.1126/science.1141038: top depth = (bag - 1) x 0.55 m
  it.skipIf(epica === null)('EPICA Dome C, 5,800 bags of 0.55 m: nothing is reported (edc_bags)', () => {
    const tops = figuresOf(epica![1]);
    const rows = epica![0].map((bag, i) => ({
      bag: { first: Number(bag), last: Number(bag) },
      top: tops[i],
    }));
    expect(checkIntervals(rows)).toMatchObject({
      misfits: [],
      rows: 5800,
      bags: 5800,
      bagLength: { value: 0.55 },
    });
  });

  it.skipIf(epica === null)('EPICA Dome C with three gaps put in: exactly these (edc_bags)', () => {
    const tops = figuresOf(epica![1]);
    const all = epica![0].map((bag, i) => ({ bag: { first: Number(bag), last: Number(bag) }, top: tops[i] }));
    const without = all.filter((_, i) => i !== 99 && i !== 1000 && i !== 1001 && i !== 4321);
    expect(found(without)).toEqual(['gap 99 0.5500', 'gap 999 1.1000', 'gap 4318 0.5500']);
    const moved = all.map((one, i) => {
      const by = (i >= 100 ? 0.05 : 0) + (i >= 2000 ? 0.11 : 0) + (i >= 5000 ? 0.02 : 0);
      return { ...one, top: { ...one.top, value: one.top.value + by } };
    });
    expect(found(moved)).toEqual(['gap 100 0.0500', 'gap 2000 0.1100', 'gap 5000 0.0200']);
  });

  // core B31, one layer a year (presumably Graf et al. 2002; repository of Dallmayr et al., GRL 2025)
  it.skipIf(b31 === null)('core B31, 1,533 yearly layers: nothing is reported (b31_b32)', () => {
    const tops = figuresOf(b31![0]);
    const bottoms = figuresOf(b31![1]);
    const rows = tops.map((top, i) => ({ top, bottom: bottoms[i] }));
    expect(checkIntervals(rows)).toMatchObject({ misfits: [], rows: 1533, junctions: 1532 });
  });

  it.skipIf(b31 === null)('core B31 with three gaps put in: exactly these (b31_b32)', () => {
    const tops = figuresOf(b31![0]);
    const bottoms = figuresOf(b31![1]);
    const by = (i: number) => (i >= 10 ? 0.01 : 0) + (i >= 700 ? 0.2 : 0) + (i >= 1500 ? 0.03 : 0);
    const rows = tops.map((top, i) => ({
      top: { ...top, value: top.value + by(i) },
      bottom: { ...bottoms[i], value: bottoms[i].value + by(i) },
    }));
    expect(found(rows)).toEqual(['gap 10 0.0100', 'gap 700 0.2000', 'gap 1500 0.0300']);
  });
});
