import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { containerCheck, letterValue, readContainer } from './iso6346.ts';

describe('ISO 6346', () => {
  it('gives letters their values: from A 10 upwards without 11, 22 and 33', () => {
    const values = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'].map(letterValue);
    expect(values).toEqual([
      10, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 23, 24, 25, 26, 27, 28, 29, 30, 31, 32, 34, 35, 36, 37, 38,
    ]);
  });

  it('gives the published example CSQU3054383, and others that were recomputed in Python', () => {
    for (const [code, sum, remainder, full] of [
      ['CSQU305438', 6185, 3, 'CSQU3054383'],
      ['MSKU110081', 3032, 7, 'MSKU1100817'],
      ['MSCU663987', 7656, 0, 'MSCU6639870'],
      ['ICEU000001', 873, 4, 'ICEU0000014'],
      ['TTNU000010', 705, 1, 'TTNU0000101'],
    ] as const) {
      const found = containerCheck(code);
      expect([found.sum, found.remainder, found.full]).toEqual([sum, remainder, full]);
      expect(found.isAdvised).toBe(true);
      expect(readContainer(full)).toEqual({
        owner: code.slice(0, 3),
        category: 'U',
        serial: code.slice(4),
        isAdvised: true,
      });
    }
  });

  it('gives a remainder of 10 the digit 0, and advises against it', () => {
    expect(containerCheck('CSQU200009')).toMatchObject({
      sum: 5081,
      remainder: 10,
      checkDigit: 0,
      isAdvised: false,
    });
    expect(readContainer('CSQU2000090').isAdvised).toBe(false);
  });

  it.each([
    ['CSQU3054384', /check digit of CSQU3054384 is 4; allowed: 3/],
    // met in public as an example; its check digit is 7
    ['MSKU1100810', /allowed: 7/],
    ['CSQU3054338', /check digit/],
    ['csqu3054383', /capital letters/],
    ['CSQX3054383', /U, J or Z/],
    ['CSQU 305438 3', /is no container’s number/],
    ['CSQU305438', /and the check digit/],
  ])('refuses %s', (full, words) => {
    expect(() => readContainer(full)).toThrow(words);
  });

  it('finds every single digit that is wrong, but for remainders of 10 and 0', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 999_999 }),
        fc.integer({ min: 0, max: 5 }),
        fc.integer({ min: 1, max: 9 }),
        (serial, place, off) => {
          const code = `ICEU${String(serial).padStart(6, '0')}`;
          const right = containerCheck(code);
          const at = 4 + place;
          const wrong = code.slice(0, at) + ((Number(code[at]) + off) % 10) + code.slice(at + 1);
          const other = containerCheck(wrong);
          expect(other.remainder).not.toBe(right.remainder);
          if (right.isAdvised && other.isAdvised) expect(other.checkDigit).not.toBe(right.checkDigit);
        },
      ),
    );
  });

  it('refuses a letter that is none', () => {
    expect(() => letterValue('Ä')).toThrow(/has no value/);
    expect(() => letterValue('AB')).toThrow(/one capital letter/);
  });
});
