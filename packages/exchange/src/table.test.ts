import { describe, expect, it } from 'vitest';
import { readTable } from './table.ts';

const read = (text: string) => readTable(new TextEncoder().encode(text), 't.csv');
const cells = (text: string) => read(text).rows.map((row) => row.cells);

describe('readTable', () => {
  it.each([
    ['comma', 'a,b\n1,2.5\n', ','],
    ['semicolon with decimal commas', 'a;b\n1;2,5\n3;4,5\n', ';'],
    ['tab with decimal commas', 'a\tb\n1\t2,5\n', '\t'],
    ['bar', 'a|b\n1|2\n', '|'],
    ['columns of blanks', '  a     b\n  1   2.5\n', ' '],
    ['columns of blanks with decimal commas', ' bag  ztop\n  1   0,00\n  2   0,55\n', ' '],
  ])('finds the separator: %s', (_, text, delimiter) => {
    expect(read(text).delimiter).toBe(delimiter);
  });

  it('numbers lines as an editor does, over comments, empty lines and line feeds in quotes', () => {
    const { rows } = read('# camp\n\na,b\n1,"two\nlines"\n\n2,x\n# note\n3,y\n');
    expect(rows.map(({ line }) => line)).toEqual([4, 7, 9]);
  });

  it('passes over a title above the header', () => {
    const { rows, headings } = read('Core log of CER-B\nlogged by KM\n\na,b\n1,2\n');
    expect(headings.map(({ text }) => text)).toEqual(['a', 'b']);
    expect(rows[0].line).toBe(5);
  });

  it('keeps empty cells of a table set in columns under their headings', () => {
    expect(cells(' Bag   ztop   Age   Temp\n   1    0.5            12\n   2    1.0    33\n')).toEqual([
      ['1', '0.5', '', '12'],
      ['2', '1.0', '33', ''],
    ]);
  });

  it('takes cells left off at the end of a row for empty ones', () => {
    expect(cells('a,b,c\n1,2\n3,4,5\n')).toEqual([
      ['1', '2', ''],
      ['3', '4', '5'],
    ]);
  });

  it.each([
    ['', 'the file is empty'],
    ['a,b\n1,2,3\n', 't.csv, line 2, column 3: the row has 3 cells, the header has 2'],
    ['a,b,c\n1,0,98,0\n', 'write decimals with a point'],
    ['a,b\n1,"2\n3,4\n', 'quotation mark is opened and never closed'],
    ['1,2\n3,4\n', 'Add a header line'],
    [
      'a,b,c\n1,2,3\n4,5',
      'line 3, column 3: the last line has 2 cells, the header has 3: the file looks cut off',
    ],
  ])('refuses %j with place and mend', (text, words) => {
    expect(() => read(text)).toThrow(words);
  });
});
