import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decideMark, markEvidence, plainNumeral, readNumeral } from './numerals.ts';

const decided = (column: readonly string[], ...others: readonly (readonly string[])[]) =>
  decideMark(markEvidence(column), others.map(markEvidence));

describe('decimal marks', () => {
  it('one cell that can only be a decimal settles its column', () => {
    expect(decided(['1,234', '0,5'])).toBe(',');
    expect(decided(['1.234', '12.5'])).toBe('.');
    expect(decided(['1,2345'])).toBe(',');
    expect(decided(['0,123'])).toBe(',');
    expect(decided(['1234,567'])).toBe(',');
  });

  it('a column that could be read in two ways goes by the other columns of its table', () => {
    expect(decided(['1,234', '2,345'], ['0,5'])).toBe(',');
    expect(decided(['1.234', '2.345'], ['12.5'], ['3'])).toBe('.');
  });

  it('without proof it is asked, and thousands are always asked', () => {
    expect(decided(['1,234', '2,345'])).toBe('ask');
    expect(decided(['1.234'])).toBe('ask');
    expect(decided(['1,234', '0.5'])).toBe('ask');
    expect(decided(['1,234'], ['0.5'])).toBe('ask');
    expect(decided(['1.234,5'])).toBe('ask');
    expect(decided(["12'345"])).toBe('ask');
    expect(decided(['12 345'])).toBe('ask');
  });

  it('a column typed with both marks is read where each cell tells for itself', () => {
    expect(decided(['0,5', '0.7', '12'])).toBe('either');
    expect(decided(['0,5', '0.7', '1,234'])).toBe('ask');
  });

  it('whole numbers prove nothing and need nothing', () => {
    expect(decided(['1', '2', '', 'x'])).toBeNull();
  });
});

describe('plainNumeral', () => {
  it.each([
    ['1.234,5', ',', '1234,5'],
    ['1,234.5', '.', '1234.5'],
    ['1,234', '.', '1234'],
    ['1,234', ',', '1,234'],
    ['12 345', ',', '12345'],
    ['12\u202f345,5', ',', '12345,5'],
    ["12'345.5", '.', '12345.5'],
    ['\u22120,25', ',', '-0,25'],
    ['1.5e-3', '.', '0.0015'],
    ['12.5', ',', '12.5'],
  ] as const)('%s with "%s" for decimals is %s', (text, mark, plain) => {
    expect(plainNumeral(text, mark)).toBe(plain);
  });

  it.each(['', '1,23,4', '1.2.3', '<0.5', 'x', '1 2', '0x10', '1,2345,678'])('%j is no number', (text) => {
    expect(plainNumeral(text, '.')).toBeNull();
  });

  it('tells a limit of detection from a value', () => {
    expect(readNumeral('< 0,5')).toMatchObject({ limit: '<', mark: ',' });
    expect(readNumeral('>3')).toMatchObject({ limit: '>' });
  });

  it('any number that the platform writes for a German or English reader comes back', () => {
    const locales = { 'de-DE': ',', 'en-GB': '.', 'de-CH': '.', 'fr-FR': ',' } as const;
    const number = fc.double({ min: -1e9, max: 1e9, noNaN: true });
    fc.assert(
      fc.property(
        number,
        fc.constantFrom(...(Object.keys(locales) as (keyof typeof locales)[])),
        (value, locale) => {
          const text = new Intl.NumberFormat(locale, { maximumFractionDigits: 6 }).format(value);
          const plain = plainNumeral(text, locales[locale]);
          expect(Number(plain?.replace(',', '.'))).toBeCloseTo(value, 5);
        },
      ),
    );
  });
});
