import { kinds } from '@firnbook/campaign';
import { type ImportMapping, proposeMapping, readSheets } from '@firnbook/exchange/sheets';
import { describe, expect, it } from 'vitest';
import { mapField, readColumn, takeAs } from './change-mapping.ts';

const read = readSheets(
  new TextEncoder().encode('Tag;Nr;Oben (m);Unten (m);Was\n2026-06-12;1;0,00;0,98;x\n'),
  'odd.csv',
);
const proposed = proposeMapping(read, kinds).mapping;
const asRun = takeAs(proposed, read, kinds, 'Run', () => true);
const fieldsOf = (mapping: ImportMapping) => mapping.tables[0].things[0].fields;

describe('--as', () => {
  it('says what the rows of a table are, and keeps what was proposed for that kind', () => {
    expect(asRun.tables[0].things).toEqual([{ kind: 'run', fields: {} }]);
    const mapped = mapField(asRun, read, kinds, 'number=Nr');
    expect(takeAs(mapped, read, kinds, 'run', () => true)).toEqual(mapped);
    expect(() => takeAs(proposed, read, kinds, 'bag', () => true)).toThrow('"bag" is no kind of thing');
  });
});

describe('--map', () => {
  it.each([
    ['from=Oben (m)', 'from', { from: 'column', column: 2 }],
    ['from=oben', 'from', { from: 'column', column: 2 }],
    ['from=3', 'from', { from: 'column', column: 2 }],
    ['run.to=Unten (m)', 'to', { from: 'column', column: 3 }],
    ['recovered==core', 'recovered', { from: 'text', text: 'core' }],
    ['number=#', 'number', { from: 'order' }],
  ])('%s', (said, field, source) => {
    expect(fieldsOf(mapField(asRun, read, kinds, said))[field]).toEqual(source);
  });

  it('field= leaves a field out; day, time and hole say when and where', () => {
    const mapped = mapField(asRun, read, kinds, 'note=Was');
    expect(fieldsOf(mapField(mapped, read, kinds, 'note='))).toEqual({});
    expect(mapField(asRun, read, kinds, 'day=Tag').tables[0].day).toBe(0);
    expect(mapField(asRun, read, kinds, 'hole=Was').tables[0].hole).toBe(4);
  });

  it.each([
    ['number', 'maps nothing'],
    ['number=Nummer', 'no table takes "number=Nummer"'],
    ['piece.length=Nr', 'no table takes "piece.length=Nr"'],
    ['colour=Was', 'no table takes "colour=Was"'],
  ])('%s is refused', (said, words) => {
    expect(() => mapField(asRun, read, kinds, said)).toThrow(words);
  });
});

describe('--read', () => {
  it.each([
    ['Oben=comma', 2, { mark: ',' }],
    ['Tag=day-first', 0, { dates: 'day first' }],
    ['Nr=as-above', 1, { blanks: 'as above' }],
    ['Unten (m)=cm', 3, { unit: 'cm' }],
  ])('%s', (said, column, reading) => {
    expect(readColumn(asRun, read, said).tables[0].columns[column]).toEqual(reading);
  });

  it('a column that is not there, and words that say nothing, are refused', () => {
    expect(() => readColumn(asRun, read, 'Nummer=comma')).toThrow('there is no column "Nummer"');
    expect(() => readColumn(asRun, read, 'comma')).toThrow('says nothing of a column');
  });
});
