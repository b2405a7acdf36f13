import { describe, expect, it } from 'vitest';
import { unitWords } from './unit-words.ts';

describe('unitWords', () => {
  it.each([
    ['kg/m3', 'kg/m³'],
    ['W/m/K', 'W/m/K'],
    ['1/s/Pa3', '1/s/Pa³'],
    ['1/a', '1/a'],
    ['Cel', '°C'],
    ['um', 'µm'],
    ['[ppth]', '‰'],
    ['m w.e./a', 'm w.e./a'],
    ['ug/kg', 'µg/kg'],
    ['kg/m³', 'kg/m³'],
    ['1', ''],
    ['', ''],
  ])('%s is written %s', (code, written) => {
    expect(unitWords(code)).toBe(written);
  });
});
