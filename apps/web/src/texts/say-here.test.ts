import { english, sayEnglish, sentence } from '@firnbook/campaign';
import { describe, expect, it } from 'vitest';
import { en } from './en.ts';
import { capital, sayHere } from './say-here.ts';

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

describe('the trade’s sentences on the screen', () => {
  it('sayHere: the same words as on the command line, numbers as the reader writes them', () => {
    const bottom = sentence('answer.run.bottom', { depth: { depth: 29.4849, sd: 0.031 } });
    expect(plain(sayHere(bottom, 'en'))).toBe(sayEnglish(bottom));
    expect(plain(sayHere(bottom, 'de'))).toBe('Solved bottom 29,48 m ± 3 cm.');
    const long = sentence('doubt.run.long', { length: { length: 1.863 } });
    expect(plain(sayHere(long, 'de'))).toContain('1,86 m long');
    const left = sentence('answer.run.left', { length: { length: 0.034 } });
    expect(plain(sayHere(left, 'de'))).toBe('3,4 cm left in the hole, expect it next.');
  });

  it('sayHere: bounds stand in the unit of their field, with no more decimals than they have', () => {
    const most = (measure: number, of: 'length' | 'temperature' | 'share' | 'angle', unit: string) =>
      plain(
        sayHere(sentence('doubt.more', { text: 'x', field: 'y', most: { measure, of, unit } }), 'de'),
      ).slice('x is more than '.length, -', unusual for y. Is it right?'.length);
    expect(most(1.5, 'length', 'cm')).toBe('150 cm');
    expect(most(0.0005, 'length', 'mm')).toBe('0,5 mm');
    expect(most(-70, 'temperature', '°C')).toBe('-70 °C');
    expect(most(0.3, 'share', '%')).toBe('30 %');
    expect(most(0.3, 'share', '1')).toBe('0,3');
    expect(most(15, 'angle', '°')).toBe('15°');
  });

  it('sayHere: a day as the reader writes it; the command line says it as the record does', () => {
    const taken = sentence('right.was.taken', {
      right: sentence('right.plan'),
      day: { day: '2026-06-16' },
      by: 'HN',
    });
    expect(sayHere(taken, 'en-GB')).toContain('away on 16 June 2026');
    expect(sayHere(taken, 'de')).toContain('away on 16. Juni 2026');
    expect(sayEnglish(taken)).toContain('away on 2026-06-16');
  });

  it('sayHere: other sentences and lists stand inside', () => {
    const field = sentence('field.run.from');
    expect(sayHere(sentence('refuse.blank', { field }))).toBe('No depth from is given.');
    expect(sayHere(sentence('mend.one.of', { words: ['m', 'cm'] }))).toBe('Use one of: m, cm.');
  });

  it('a text stands in one catalogue only: no key of the screens is one of the trade’s', () => {
    expect(Object.keys(en).filter((key) => Object.hasOwn(english, key))).toEqual([]);
  });

  it('capital: the first letter alone', () => {
    expect([capital('depth from'), capital('über'), capital('')]).toEqual(['Depth from', 'Über', '']);
  });
});
