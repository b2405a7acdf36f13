import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CheckSystem, checkCharacters, checkSystems, hasRightCheck } from './iso7064.ts';

const alphanumeric = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ';
/** The standard's own definition, in whole numbers of any size: what a whole string comes to. */
const residue = (whole: string, system: CheckSystem): bigint => {
  const value = (character: string) =>
    character === '*'
      ? 36n
      : BigInt(system === 'MOD 11-2' && character === 'X' ? 10 : alphanumeric.indexOf(character));
  if (system.includes('-')) {
    const [modulus, radix] = system.slice(4).split('-').map(BigInt);
    let [sum, weight] = [0n, 1n];
    for (const character of [...whole].toReversed()) {
      sum += value(character) * weight;
      weight *= radix;
    }
    return sum % modulus;
  }
  const [, m] = system.slice(4).split(',').map(BigInt);
  let [p, s] = [m, 0n];
  for (const character of whole) {
    s = (p % (m + 1n)) + value(character);
    p = (s % m === 0n ? m : s % m) * 2n;
  }
  return s % m;
};

const textOf = (system: CheckSystem) =>
  fc
    .array(fc.constantFrom(...(system.startsWith('MOD 37') ? alphanumeric : '0123456789')), {
      minLength: 1,
      maxLength: 25,
    })
    .map((characters) => characters.join(''));

describe('ISO/IEC 7064', () => {
  it.each([
    // of the standard (from memory)
    ['MOD 11,10', '0794', '5'],
    ['MOD 11-2', '0794', '0'],
    ['MOD 97-10', '794', '44'],
    // as a public library's documentation prints it
    ['MOD 11-2', '079', 'X'],
    // a donation number of ISBT 128 and a release identifier of GRid, as their standards print them (from memory)
    ['MOD 37-2', 'G123489654321', 'Y'],
    ['MOD 37,36', 'A12425GABC1234002', 'M'],
  ] as const)('%s of %s is %s', (system, text, check) => {
    expect(checkCharacters(text, system)).toBe(check);
    expect(residue(text + check, system)).toBe(1n);
  });

  for (const system of checkSystems) {
    it(`${system} makes strings that satisfy the definition in the standard`, () => {
      fc.assert(
        fc.property(textOf(system), (text) => {
          const whole = text + checkCharacters(text, system);
          expect(residue(whole, system)).toBe(1n);
          expect(hasRightCheck(whole, system)).toBe(true);
        }),
      );
    });

    it(`${system} finds every single wrong character`, () => {
      fc.assert(
        fc.property(textOf(system), fc.nat(), fc.integer({ min: 1, max: 35 }), (text, at, off) => {
          const alphabet = system.startsWith('MOD 37') ? alphanumeric : '0123456789';
          fc.pre(off < alphabet.length);
          const place = at % text.length;
          const other = alphabet[(alphabet.indexOf(text[place]) + off) % alphabet.length];
          const wrong = text.slice(0, place) + other + text.slice(place + 1);
          expect(hasRightCheck(wrong + checkCharacters(text, system), system)).toBe(false);
        }),
      );
    });
  }

  it('pure systems find every swap of neighbours that differ', () => {
    for (const system of ['MOD 11-2', 'MOD 37-2', 'MOD 97-10'] as const)
      fc.assert(
        fc.property(textOf(system), fc.nat(), (text, at) => {
          const place = at % text.length;
          fc.pre(place + 1 < text.length && text[place] !== text[place + 1]);
          const swapped = text.slice(0, place) + text[place + 1] + text[place] + text.slice(place + 2);
          expect(hasRightCheck(swapped + checkCharacters(text, system), system)).toBe(false);
        }),
      );
  });

  it('refuses an empty string and a character that the system has not', () => {
    expect(() => checkCharacters('', 'MOD 11,10')).toThrow(/the string is empty/);
    expect(() => checkCharacters('B-R034', 'MOD 37,36')).toThrow(/"-" in "B-R034" is none of its characters/);
    expect(() => checkCharacters('12A', 'MOD 97-10')).toThrow(/"A"/);
    expect(hasRightCheck('5', 'MOD 11,10')).toBe(false);
    expect(hasRightCheck('07!45', 'MOD 11,10')).toBe(false);
  });
});
