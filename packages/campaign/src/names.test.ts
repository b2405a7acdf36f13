import { describe, expect, it } from 'vitest';
import { checkDigit, pieceName, readName, runName, withCheck } from './names.ts';
import { sentence } from './texts/sentence.ts';

/** The standard's definition of the hybrid system, written the other way round: does a whole string check? */
function satisfiesStandard(digits: string): boolean {
  // ISO/IEC 7064: P(1) = M; S(j) = P(j) mod (M+1) + a(j); P(j+1) = (S(j) mod M, or M) * 2; S(n) = 1 mod M. M = 10.
  let p = 10;
  let s = 0;
  for (const a of digits) {
    s = (p % 11) + Number(a);
    const rest = s % 10;
    p = (rest === 0 ? 10 : rest) * 2;
  }
  return s % 10 === 1;
}

describe('checkDigit', () => {
  it('of 0794 is 5, the worked example of ISO/IEC 7064 for MOD 11,10 (from memory)', () => {
    expect(checkDigit('0794')).toBe('5');
  });

  it('makes strings that satisfy the definition in the standard, and only that digit does', () => {
    for (let n = 0; n < 10_000; n += 37) {
      const digits = String(n).padStart(7, '0');
      const fitting = [...'0123456789'].filter((check) => satisfiesStandard(digits + check));
      expect(fitting).toEqual([checkDigit(digits)]);
    }
  });

  it('finds every single wrong digit', () => {
    const whole = `0218034${checkDigit('0218034')}`;
    for (let i = 0; i < whole.length; i++)
      for (const digit of '0123456789')
        if (digit !== whole[i])
          expect(satisfiesStandard(whole.slice(0, i) + digit + whole.slice(i + 1))).toBe(false);
  });

  it('throws where there is anything but digits', () => {
    expect(() => checkDigit('B-R034')).toThrow(RangeError);
    expect(() => checkDigit('')).toThrow(RangeError);
  });
});

describe('names', () => {
  it('are padded to three digits and grow beyond', () => {
    expect([runName('B', 34), runName('B', 1234), pieceName('B', 34, 2)]).toEqual([
      'B-R034',
      'B-R1234',
      'B-P034.2',
    ]);
  });

  it('withCheck ends in a digit that readName accepts', () => {
    for (const name of ['B-R034', 'A-P001.12', 'Z-G117', 'B-R1234']) {
      expect(withCheck(name)).toMatch(/-\d$/);
      expect(readName(withCheck(name))).toMatchObject({ ok: true, name });
    }
  });

  it.each(['b-r034', 'B R34', 'br34', ' b - r 034 ', withCheck('B-R034'), withCheck('B-R034').toLowerCase()])(
    'readName of "%s" is B-R034',
    (text) => {
      expect(readName(text)).toEqual({
        ok: true,
        name: 'B-R034',
        parts: { hole: 'B', kind: 'R', number: 34 },
      });
    },
  );

  it('readName takes a comma for the point of a piece', () => {
    expect(readName('b p34,2')).toMatchObject({ ok: true, name: 'B-P034.2', parts: { piece: 2 } });
  });

  it('readName refuses a check digit that does not fit, a letter misread and what is no name', () => {
    const right = checkDigit('0218034');
    const wrong = String((Number(right) + 3) % 10);
    expect(readName(`B-R034-${wrong}`)).toMatchObject({
      ok: false,
      what: sentence('refuse.check.digit', { name: 'B-R034', digit: wrong }),
    });
    // B read as D: one digit of the letter's two is wrong.
    expect(readName(withCheck('B-R034').replace('B', 'D')).ok).toBe(false);
    for (const text of ['', 'B-R', '034', 'B-R034.', 'B-R034-12', 'BB-R034'.repeat(100)])
      expect(readName(text).ok).toBe(false);
  });
});
