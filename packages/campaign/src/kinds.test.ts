import { describe, expect, it } from 'vitest';
import { fieldOf, kindLoggedBy, kindOf, kinds } from './kinds.ts';
import { readReading } from './reading.ts';

describe('kinds', () => {
  it('each has its own word and entry, and fields with names of their own', () => {
    expect(new Set(kinds.map((kind) => kind.kind)).size).toBe(kinds.length);
    expect(new Set(kinds.map((kind) => kind.entry)).size).toBe(kinds.length);
    for (const kind of kinds) {
      expect(new Set(kind.fields.map((field) => field.name)).size).toBe(kind.fields.length);
      expect(kind.fields.some((field) => field.required)).toBe(true);
      expect(kindOf(kind.kind)).toBe(kind);
      expect(kindLoggedBy(kind.entry)).toBe(kind);
    }
  });

  it('usual values can be typed, the least first', () => {
    for (const field of kinds.flatMap((kind) => kind.fields))
      if (field.quantity === 'length') {
        expect(field.usual[0]).toBeLessThan(field.usual[1]);
        expect(readReading(`${field.usual[1]} m`, field)).toMatchObject({ ok: true });
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
