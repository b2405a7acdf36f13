import { describe, expect, it } from 'vitest';
import { en } from './en.ts';
import { calculatorTexts } from './en-calculator.ts';
import { carryTexts } from './en-carry.ts';
import { screenTexts } from './en-screens.ts';
import { addTexts, t } from './t.ts';

describe('the catalogue', () => {
  it('t: puts values in and picks the plural', () => {
    expect(t('run.ask.from', { number: 35 })).toBe('Run 35: depth from');
    expect(t('list.pieces', { count: 1 })).toBe('1 piece');
    expect(t('list.pieces', { count: 3 })).toBe('3 pieces');
  });
  it('takes the texts of parts that come later', () => {
    addTexts(screenTexts);
    expect(t('today.hole', { letter: 'B' })).toBe('Hole B');
    expect(t('today.weighed', { count: 2 })).toBe('2 weighed');
  });
  it('every plural text has both forms', () => {
    const keys = [en, screenTexts, calculatorTexts, carryTexts].flatMap((texts) => Object.keys(texts));
    const halves = keys.filter((key) => key.endsWith('_one')).map((key) => key.replace(/_one$/, '_other'));
    expect(halves.filter((key) => !keys.includes(key))).toEqual([]);
  });
});
