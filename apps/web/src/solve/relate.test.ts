import { describe, expect, it } from 'vitest';
import { relate } from './relate.ts';

describe('relate', () => {
  it('works out a relation by its name, with what a thread can hand over', () => {
    const inputs = {
      start: { kind: 'number', value: -24, unit: 'Cel' },
      ambient: { kind: 'number', value: -4, unit: 'Cel', sd: 2 },
      snow: { kind: 'number', value: 7, unit: 'cm' },
      insulation: { kind: 'number', value: 40, unit: 'mm' },
      diameter: { kind: 'number', value: 96, unit: 'mm' },
      length: { kind: 'number', value: 1.1, unit: 'm' },
    } as const;
    const answer = relate('box-warming', inputs);
    expect(structuredClone(answer)).toEqual(answer);
    expect(answer.results.core?.unit).toBe('h');
    expect(answer.results.core?.parts[0]?.from).toBe('ambient');
  });
  it('refuses a name that there is not', () => {
    expect(() => relate('box-cooling', {})).toThrow('There is no relation "box-cooling".');
  });
});
