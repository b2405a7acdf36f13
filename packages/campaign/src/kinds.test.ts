import { describe, expect, it } from 'vitest';
import { fieldOf, kindLoggedBy, kindOf, kinds } from './kinds.ts';
import { readReading } from './reading.ts';
import { inUnit } from './unit.ts';

describe('kinds', () => {
  it('each has its own word and entry, and fields with names of their own', () => {
    expect(new Set(kinds.map((kind) => kind.kind)).size).toBe(kinds.length);
    expect(new Set(kinds.map((kind) => kind.entry)).size).toBe(kinds.length);
    for (const kind of kinds) {
      expect(new Set(kind.fields.map((field) => field.name)).size).toBe(kind.fields.length);
      expect(kindOf(kind.kind)).toBe(kind);
      expect(kindLoggedBy(kind.entry)).toBe(kind);
    }
  });

  it('usual values can be typed, the least first', () => {
    for (const kind of kinds)
      for (const field of kind.fields) {
        if (!('usual' in field)) continue;
        const [least, most] = field.usual;
        expect(least).toBeLessThan(most);
        const typed =
          field.quantity === 'count'
            ? `${most}`
            : `${inUnit(most, field.quantity === 'lengths' ? 'length' : field.quantity, field.unit)} ${field.unit}`;
        const read = readReading(typed, field, kind);
        expect(read.ok && read.reading.value).toBeCloseTo(most, 9);
      }
  });

  it('what is not there is undefined, names of the language itself too', () => {
    for (const word of ['bag', '__proto__', 'constructor', 'toString']) {
      expect(kindOf(word)).toBeUndefined();
      expect(kindLoggedBy(word)).toBeUndefined();
      expect(fieldOf(kinds[0]!, word)).toBeUndefined();
    }
  });
});
