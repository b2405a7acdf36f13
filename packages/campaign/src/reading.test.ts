import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Field, LengthsField, MeasureField } from './kind.ts';
import { fieldOf, kindOf, kinds } from './kinds.ts';
import { lengthsIn, positionIn, type Read, readReading as readOf } from './reading.ts';
import { sayEnglish } from './texts/say-english.ts';
import { type Dimension, type Factor, units } from './unit.ts';

const length = fieldOf(kindOf('piece')!, 'length')!;
const depth = fieldOf(kindOf('run')!, 'to')!;
const number = fieldOf(kindOf('run')!, 'number')!;
const topBreak = fieldOf(kindOf('piece')!, 'topBreak')!;

/** The field's own kind is found by the field, so that a test names one thing only. */
const readReading = (text: string, field: Field): Read =>
  readOf(text, field, kinds.find((kind) => kind.fields.includes(field))!);

const value = (read: Read): number | null => (read.ok ? read.reading.value : Number.NaN);

describe('readReading', () => {
  it.each([
    ['87,5 cm', 0.875],
    ['87.5cm', 0.875],
    ['0.875 m', 0.875],
    ['875 mm', 0.875],
    ['8,75 dm', 0.875],
    ['87,5', 0.875],
    [' 87,5\u00a0cm ', 0.875],
    ['87,5\u202fcm', 0.875],
    ['\u22122 cm', -0.02],
    ['- 2 cm', -0.02],
    ['+2 cm', 0.02],
    [',5 cm', 0.005],
    ['12, cm', 0.12],
    ['0.001 km', 1],
    ['87.5 CM', 0.875],
    ['0.875 metres', 0.875],
    ['-0 cm', 0],
  ])('J6: a length "%s" with cm assumed is %f m, to the last bit', (text, metres) => {
    expect(value(readReading(text, length))).toBe(metres);
  });

  it('a depth takes its own unit where none is typed', () => {
    expect(value(readReading('12,30', depth))).toBe(12.3);
  });

  // International yard and pound agreement, 1959: 1 in = 25.4 mm, 1 ft = 0.3048 m, exactly.
  it.each([
    ['10 in', 0.254],
    ['10 ft', 3.048],
  ])('"%s" is %f m by the exact factor', (text, metres) => {
    expect(value(readReading(text, depth))).toBeCloseTo(metres, 12);
  });

  it('every reading of a millimetre, centimetre and metre that means the same is the same number', () => {
    for (let mm = 1; mm <= 1500; mm += 7) {
      const texts = [
        `${mm} mm`,
        `${(mm / 10).toFixed(1)} cm`,
        `${(mm / 1000).toFixed(3).replace('.', ',')} m`,
      ];
      expect(new Set(texts.map((text) => value(readReading(text, length)))).size).toBe(1);
    }
  });

  // ECMA-262 Number(text) gives the double nearest to the decimal text: the reference for every power of ten.
  it('J6: plain lengths are the number nearest to their text, whatever the digits', () => {
    const digits = fc.stringMatching(/^\d{0,9}$/);
    const unit = fc.constantFrom(['m', 0], ['cm', -2], ['mm', -3], ['dm', -1]);
    fc.assert(
      fc.property(digits, fc.constantFrom('.', ','), digits, unit, fc.constantFrom(' ', ''), (...typed) => {
        const [whole, mark, decimals, [word, power], gap] = typed;
        fc.pre(whole + decimals !== '');
        const read = readReading(`${whole}${mark}${decimals}${gap}${word}`, length);
        const step = Number(`1e${Number(power) - decimals.length}`);
        const nearest = Number(`0${whole}.${decimals}0e${power}`);
        expect(read).toEqual({ ok: true, reading: { value: nearest, word: null, step } });
      }),
      { numRuns: 2000, seed: 6 },
    );
  });

  it('keeps how finely it was read', () => {
    const step = (text: string) => {
      const read = readReading(text, length);
      return read.ok ? read.reading.step : null;
    };
    expect([step('87,5 cm'), step('87 cm'), step('0.8750 m')]).toEqual([0.001, 0.01, 0.0001]);
  });

  it.each([
    ['1.234,5 cm', 'more than one comma or point'],
    ['1,234,567', 'more than one comma or point'],
    ['1 234 cm', 'gap between its digits'],
    ["1'234 cm", 'gap between its digits'],
    ['eighty', 'not a unit of length'],
    ['cm', 'holds no number'],
    ['87,5 kg', 'not a unit of length'],
    ['1e3 m', "can't be read"],
    ['87,5 cm?', "can't be read"],
    ['--3 cm', "can't be read"],
    ['0x10 m', "can't be read"],
    ['9'.repeat(60), 'too long'],
    ['   ', 'No length is given'],
  ])('refuses "%s": %s', (text, what) => {
    const read = readReading(text, length);
    expect(read.ok).toBe(false);
    if (read.ok) return;
    expect(sayEnglish(read.what)).toContain(what);
    expect(sayEnglish(read.mend)).not.toBe('');
  });

  it('takes a whole number from 1 on, and nothing else, where things are counted', () => {
    expect(value(readReading('034', number))).toBe(34);
    for (const text of ['0', '-3', '3.5', '3 m', 'three', '12345678'])
      expect(readReading(text, number).ok).toBe(false);
  });

  it('takes the words of the list whatever their case, and says the list otherwise', () => {
    expect(readReading('FITS', topBreak)).toMatchObject({ ok: true, reading: { word: 'fits', value: null } });
    const read = readReading('glued', topBreak);
    expect(!read.ok && sayEnglish(read.mend)).toContain('fits, ground, loss, unsure');
  });

  it('texts of 100 kB are refused too (no pattern runs away)', () => {
    const fields: readonly Field[] = [
      length,
      { name: 'tried', quantity: 'lengths', unit: 'mm', usual: [0, 1] },
      { name: 'tried', quantity: 'position' },
      { name: 'tried', quantity: 'time' },
      { name: 'tried', quantity: 'attachment' },
    ];
    for (const char of ['1', ' ', '.', "'", 'a', '-', '1 ', '1.', ';', ' ;', '°', '- '])
      for (const field of fields)
        expect(readOf(`${char.repeat(100_000)}!`, field, kindOf('piece')!).ok).toBe(false);
  });
});

/** A field that no kind of this build has; its quantity is what is tried out. */
const fieldIn = (quantity: Dimension): MeasureField =>
  ({ name: 'tried', quantity, unit: Object.keys(units[quantity])[0], usual: [0, 1] }) as MeasureField;
const trial = kindOf('piece')!;
const said = (text: string, field: Field): number | null => value(readOf(text, field, trial));

describe('numbers with any unit', () => {
  const dimensions = Object.keys(units) as Dimension[];

  // The reference works in fractions of whole numbers (BigInt) and rounds once, at its end; pi alone is a double.
  it('whatever is typed with a known unit is number times factor, to 1e-15', () => {
    const pick = fc
      .constantFrom(...dimensions)
      .chain((dimension) =>
        fc.tuple(
          fc.constant(dimension),
          fc.constantFrom(...Object.keys(units[dimension]).filter((unit) => unit !== '1')),
        ),
      );
    const digits = fc.stringMatching(/^\d{1,8}$/);
    const typed = fc.tuple(
      pick,
      fc.constantFrom('', '-', '\u2212', '+'),
      digits,
      fc.constantFrom('.', ','),
      digits,
      fc.constantFrom('', ' ', '\u00a0', '\u202f'),
    );
    fc.assert(
      fc.property(typed, ([[dimension, unit], sign, whole, mark, decimals, gap]) => {
        const isBelow = sign === '-' || sign === '\u2212';
        const number = BigInt(whole + decimals) * (isBelow ? -1n : 1n);
        const wanted = asFraction(number, decimals.length, units[dimension], unit);
        const read = said(`${sign}${whole}${mark}${decimals}${gap}${unit}`, fieldIn(dimension))!;
        expect(Math.abs(read - wanted)).toBeLessThanOrEqual(1e-15 * Math.abs(wanted));
        expect(Object.is(read, -0)).toBe(false);
      }),
      { numRuns: 3000, seed: 11 },
    );
  });

  it('never throws on any text, whatever the field holds', () => {
    const text = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 60 }),
      fc
        .array(
          fc.constantFrom(...'0123456789.,;:-+ °µ%‰/CFKmcgkTZ³1'.split(''), '\u2212', '\u00a0', '__proto__'),
          {
            maxLength: 30,
          },
        )
        .map((parts) => parts.join('')),
    );
    const fields: readonly Field[] = [
      ...dimensions.map(fieldIn),
      ...kinds.flatMap((kind) => kind.fields),
      { name: 'tried', quantity: 'lengths', unit: 'mm', usual: [0, 1] },
    ];
    fc.assert(
      fc.property(text, fc.constantFrom(...fields), (typed, field) => {
        const read = readOf(typed, field, trial);
        if (read.ok) {
          if (read.reading.value !== null) expect(Number.isFinite(read.reading.value)).toBe(true);
        } else expect(sayEnglish(read.what) + sayEnglish(read.mend)).not.toContain('undefined');
        if (field.quantity === 'lengths') lengthsIn(typed, field);
        positionIn(typed);
      }),
      { numRuns: 3000, seed: 12 },
    );
  });

  it.each([
    ['-24,1 degC', 'temperature', -24.1],
    ['-24.1 ° C', 'temperature', -24.1],
    ['-24.1 ℃', 'temperature', -24.1],
    ['-24.1 C', 'temperature', -24.1],
    ['-24.1', 'temperature', -24.1],
    ['249.05 k', 'temperature', -24.1],
    ['273.2 K', 'temperature', 0.05],
    ['1,5 Litre', 'volume', 0.0015],
    ['1500 cm3', 'volume', 0.0015],
    ['0.0015 m³', 'volume', 0.0015],
    ['1.5 L', 'volume', 0.0015],
    ['12 deg', 'angle', 12],
    ['12º', 'angle', 12],
    ['60 1/min', 'rotation', 60],
    ['601/min', 'rotation', 601],
    ['60 min⁻¹', 'rotation', 60],
    ['36 km/h', 'speed', 10],
    ['300 kg', 'mass', 300],
    ['2 Mg', 'mass', 2000],
    ['2 mg', 'mass', 2e-6],
    ['30%', 'share', 0.3],
    ['0.3', 'share', 0.3],
    ['90 min', 'duration', 5400],
  ] as const)('"%s" as %s is %f', (text, dimension, wanted) => {
    const field = { ...fieldIn(dimension), ...(dimension === 'share' ? { unit: '1' } : {}) } as MeasureField;
    expect(said(text, field)).toBe(wanted);
  });

  it('a unit of another dimension is refused, with the units that would do', () => {
    const read = readOf('87 cm', fieldIn('mass'), trial);
    expect(!read.ok && [sayEnglish(read.what), sayEnglish(read.mend)]).toEqual([
      '"cm" in "87 cm" is not a unit of mass.',
      'Use one of: kg, g, mg, t.',
    ]);
    for (const [text, dimension] of [
      ['60 1', 'share'],
      ['1 1/min', 'length'],
      ['5 m3', 'length'],
      ['5 °', 'temperature'],
      ['10 m2', 'length'],
    ] as const)
      expect(readOf(text, fieldIn(dimension), trial).ok).toBe(false);
  });
});

describe('several lengths in one reading', () => {
  const field: LengthsField = { name: 'tried', quantity: 'lengths', unit: 'mm', usual: [0, 1] };

  it.each([
    ['98,1 98.3 mm', [0.0981, 0.0983]],
    ['98,1; 98,3', [0.0981, 0.0983]],
    ['9,81 cm 98.3 mm', [0.0981, 0.0983]],
    ['9,81 9,83 cm ; 98.2 mm', [0.0981, 0.0983, 0.0982]],
    ['9.81 cm 9.83', [0.0981, 0.0983]],
    ['98.1mm', [0.0981]],
    ['0 12,5 87 cm', [0, 0.125, 0.87]],
  ])('"%s" is %j', (text, metres) => {
    expect(lengthsIn(text, field)).toEqual(metres);
    const mean = metres.reduce((sum, one) => sum + one, 0) / metres.length;
    expect(said(text, field)).toBe(mean);
  });

  it.each(['', ';', 'mm', '98,1, 98,3', '98.1 kg', '98 x 99 mm', '9'.repeat(50), '1 '.repeat(60)])(
    'refuses "%s"',
    (text) => {
      expect(readOf(text, field, trial).ok).toBe(false);
      expect(lengthsIn(text, field)).toEqual([]);
    },
  );
});

describe('what is no number', () => {
  it('an attachment is a SHA-256 in hexadecimal digits, kept in lower case', () => {
    const field: Field = { name: 'tried', quantity: 'attachment' };
    // FIPS 180-4 example "abc", as NIST's example values give it.
    const hash = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';
    expect(readOf(hash.toUpperCase(), field, trial)).toMatchObject({ ok: true, reading: { word: hash } });
    for (const text of [hash.slice(1), `${hash}0`, hash.replace('b', 'g')])
      expect(readOf(text, field, trial).ok).toBe(false);
  });

  it('a time and a position are refused with an example of one', () => {
    for (const quantity of ['time', 'position'] as const) {
      const field: Field = { name: 'tried', quantity };
      const read = readOf('here and now', field, trial);
      if (read.ok) throw new Error('taken');
      const example = /like (.*)\.$/.exec(sayEnglish(read.mend))![1]!;
      expect(readOf(example, field, trial)).toMatchObject({ ok: true });
    }
  });
});

/** number / 10^places in the unit, in the base unit: whole numbers until the last step. */
function asFraction(
  number: bigint,
  places: number,
  table: Readonly<Record<string, Factor>>,
  unit: string,
): number {
  if (unit === 'rad') return (Number(number) / 10 ** places) * (180 / Math.PI);
  const { power = 0, times = 1, over = 1, less = '0' } = table[unit]!;
  // In hundredths, as fine as any `less` is.
  const scale = 10n ** BigInt(places) * 100n;
  const off = BigInt(Math.round(Number(less) * 100)) * 10n ** BigInt(places);
  const top = (number * 100n - off) * BigInt(times) * 10n ** BigInt(Math.max(power, 0));
  const bottom = scale * BigInt(over) * 10n ** BigInt(Math.max(-power, 0));
  // Twenty-five digits of the quotient are more than a double holds.
  return Number(`${(top * 10n ** 25n) / bottom}e-25`);
}
