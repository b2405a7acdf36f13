import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fieldOf, kindOf } from './kinds.ts';
import { type Read, readReading } from './reading.ts';

const length = fieldOf(kindOf('piece')!, 'length')!;
const depth = fieldOf(kindOf('run')!, 'to')!;
const number = fieldOf(kindOf('run')!, 'number')!;
const topBreak = fieldOf(kindOf('piece')!, 'topBreak')!;

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
    expect(read.what).toContain(what);
    expect(read.mend).not.toBe('');
  });

  it('takes a whole number from 1 on, and nothing else, where things are counted', () => {
    expect(value(readReading('034', number))).toBe(34);
    for (const text of ['0', '-3', '3.5', '3 m', 'three', '12345678'])
      expect(readReading(text, number).ok).toBe(false);
  });

  it('takes the words of the list whatever their case, and says the list otherwise', () => {
    expect(readReading('FITS', topBreak)).toMatchObject({ ok: true, reading: { word: 'fits', value: null } });
    const read = readReading('glued', topBreak);
    expect(!read.ok && read.mend).toContain('fits, loss, unsure');
  });

  it('texts of 100 kB are refused too (no pattern runs away)', () => {
    for (const char of ['1', ' ', '.', "'", 'a', '-', '1 ', '1.'])
      expect(readReading(`${char.repeat(100_000)}!`, length).ok).toBe(false);
  });
});
