import { kinds } from '@firnbook/campaign';
import type { TableMapping } from '@firnbook/exchange/sheets';
import { describe, expect, it } from 'vitest';
import { fieldsFor, unfilled, unitsFor, usesOf, withColumn, withSource, withUse } from './change-mapping.ts';

/** Invented: run, from, to, length in columns 0 to 3. */
const table: TableMapping = {
  things: [
    {
      kind: 'run',
      fields: {
        number: { from: 'column', column: 0 },
        from: { from: 'column', column: 1 },
        to: { from: 'column', column: 2 },
      },
    },
    {
      kind: 'piece',
      fields: {
        run: { from: 'column', column: 0 },
        number: { from: 'order' },
        length: { from: 'column', column: 3 },
        topBreak: { from: 'text', text: 'unsure' },
      },
    },
  ],
  columns: {},
  day: null,
  time: null,
  hole: null,
};

describe('what a column is used for', () => {
  it('is said once: the run of a piece is the number of the run in the same row', () => {
    expect(usesOf(table, kinds, 0)).toEqual([{ of: 'run', field: 'number' }]);
    const pieces = fieldsFor(table, kinds).find(({ kind }) => kind.kind === 'piece')!;
    expect(pieces.fields.map(({ name }) => name)).not.toContain('run');
  });

  it('goes to the new column and leaves the old one; what hangs on a number follows it', () => {
    const changed = withUse(table, kinds, 4, { of: 'run', field: 'number' });
    expect(usesOf(changed, kinds, 0)).toEqual([]);
    expect(changed.things[1]!.fields.run).toEqual({ from: 'column', column: 4 });
    expect(usesOf(withUse(changed, kinds, 4, null), kinds, 4)).toEqual([]);
  });

  it('can be the day, the time or the hole of its row', () => {
    const changed = withUse(table, kinds, 3, { of: 'row', field: 'day' });
    expect(changed).toMatchObject({ day: 3 });
    expect(changed.things[1]!.fields).not.toHaveProperty('length');
    expect(withUse(changed, kinds, 3, null).day).toBeNull();
  });
});

describe('what no column fills', () => {
  it('is told with what stands in for it, and what is still needed', () => {
    const told = (one: TableMapping) =>
      unfilled(one, kinds).map(({ kind, field, source }) => [kind.kind, field.name, source?.from ?? null]);
    expect(told(table)).toEqual([
      ['piece', 'number', 'order'],
      ['piece', 'topBreak', 'text'],
    ]);
    const less = withSource(table, kinds, { of: 'piece', field: 'topBreak' }, null);
    expect(told(less)).toContainEqual(['piece', 'topBreak', null]);
    const fits = withSource(table, kinds, { of: 'piece', field: 'topBreak' }, { from: 'text', text: 'fits' });
    expect(fits.things[1]!.fields.topBreak).toEqual({ from: 'text', text: 'fits' });
  });
});

describe('how a column is read', () => {
  it('offers the units of its field, the usual one first, and none for words', () => {
    expect(unitsFor(table, kinds, 3)[0]).toBe('cm');
    expect(unitsFor(table, kinds, 3)).toContain('m');
    expect(unitsFor(table, kinds, 0)).toEqual([]);
  });

  it('forgets what was said of it', () => {
    const said = withColumn(table, 3, { unit: 'mm' });
    expect(said.columns[3]).toEqual({ unit: 'mm' });
    expect(withColumn(said, 3, { unit: undefined }).columns[3]).toEqual({});
  });
});
