import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { fixed, writeTable } from './write-table.ts';

describe('writeTable', () => {
  it('quotes by RFC 4180 section 2, rules 5 to 7, and papaparse reads the same back', () => {
    const rows = [['plain', 'with, comma', 'with "quotes"', 'two\nlines', '']];
    const text = writeTable(['a', 'b', 'c', 'd', 'e'], rows);
    expect(text).toBe('a,b,c,d,e\nplain,"with, comma","with ""quotes""","two\nlines",\n');
    expect(Papa.parse(text, { skipEmptyLines: true }).data[1]).toEqual(rows[0]);
  });

  it('puts an apostrophe before text that would run as a formula, and leaves numbers alone', () => {
    expect(writeTable(['a'], [['=1+1'], ['@x'], ['-5'], ['-2+3'], [-7.5], ['+1,5']])).toBe(
      "a\n'=1+1\n'@x\n-5\n'-2+3\n-7.5\n\"+1,5\"\n",
    );
  });

  it('ends lines in CR LF where asked to', () => {
    expect(writeTable(['a'], [[1]], { crlf: true })).toBe('a\r\n1\r\n');
  });

  it('writes an absent and a non-finite number as an empty cell', () => {
    expect(writeTable(['a', 'b'], [[null, Number.NaN]])).toBe('a,b\n,\n');
  });
});

describe('fixed', () => {
  it('never writes a negative zero', () => {
    expect(fixed(-0.00001, 3)).toBe('0.000');
    expect(fixed(-0.5, 1)).toBe('-0.5');
  });
});
