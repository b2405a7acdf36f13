import { describe, expect, it } from 'vitest';
import { readingFace, readingWords } from './reading-text.tsx';

describe('a reading on the screen', () => {
  it('number and unit stay on one line, as typed; below zero has a true minus', () => {
    expect(readingWords('piece', 'length', '42,6 cm')).toBe('42,6\u00a0cm');
    expect(readingWords('run', 'temperature', '-24.1 °C')).toBe('\u221224.1\u00a0°C');
    expect(readingWords('weather', 'direction', '315 °')).toBe('315°');
    expect(readingWords('tray', 'positions', '0; 42,6; 74 cm')).toBe('0; 42,6; 74\u00a0cm');
  });
  it('a word of the record is said in the crew’s words, however it was written', () => {
    expect(readingWords('piece', 'topBreak', 'LOSS')).toBe('Ice is lost');
    expect(readingWords('duty', 'as', 'driller')).toBe('Driller');
  });
  it('a height against the first zero says higher, lower or level', () => {
    expect(readingWords('zero check', 'height', '-3 cm')).toBe('3\u00a0cm lower than the first zero');
    expect(readingWords('zero', 'height', '0 cm')).toBe('level with the first zero');
    expect(readingWords('stake', 'height', '142 cm')).toBe('142\u00a0cm');
  });
  it('a file is named by the beginning of its digest, a text stays as it is', () => {
    expect(readingWords('photograph', 'picture', '0123456789abcdef')).toBe('file 01234567');
    expect(readingWords('run', 'note', 'two  spaces')).toBe('two  spaces');
  });
  it('figures stand in the numbers’ type, words do not', () => {
    expect(readingFace('piece', 'mass')).toBe('num');
    expect(readingFace('piece', 'topBreak')).toBe('');
    expect(readingFace('zero', 'height')).toBe('');
  });
});
