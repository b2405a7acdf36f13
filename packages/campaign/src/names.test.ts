import { describe, expect, it } from 'vitest';
import { pieceName, readName, runName, withCheck } from './names.ts';
import { sentence } from './texts/sentence.ts';

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
    // letters B and R are 02 and 18; of 0218034 it is 4 by MOD 11,10 of ISO/IEC 7064, recomputed in Python
    const right = withCheck('B-R034').slice(-1);
    expect(right).toBe('4');
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
