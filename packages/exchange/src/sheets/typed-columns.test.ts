import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { readColumns, said, type TypedColumn } from './typed-columns.ts';

const utf8 = (text: string) => new TextEncoder().encode(text);
const read = (text: string) => readColumns(utf8(text), 'ions.csv');
const figures = (column: TypedColumn) => {
  if (column.holds !== 'figures') throw new Error(`${column.text} holds words`);
  return column;
};
const texts = (column: TypedColumn) => {
  if (column.holds !== 'words') throw new Error(`${column.text} holds figures`);
  return [...column.codes].map((code) => column.texts.text(code));
};

describe('readColumns', () => {
  // invented figures
  const file =
    'Ions of CER-B, invented\n\nSample;Depth top (m);Na;Remark\n;;ng/g;\nB-P001.1-a;0,00;12,5;\nB-P001.1-b;0,05;<0,5;"thin; crust"\nB-P001.1-c;0,10;;"said ""dusty"""\nB-P001.1-d;0,15;> 800;\nB-P001.1-e;0,20;lost;\n';

  it('reads heading, units, figures, limits, blanks and words', () => {
    const table = read(file);
    expect(table.title).toEqual(['Ions of CER-B, invented']);
    expect(table.rows).toBe(5);
    expect(table.columns.map(({ words, unit, holds }) => [words, unit, holds])).toEqual([
      ['sample', null, 'words'],
      ['depth top', 'm', 'figures'],
      ['na', 'ng/g', 'figures'],
      ['remark', null, 'words'],
    ]);
    const na = figures(table.columns[2]);
    expect([...na.values]).toEqual([12.5, 0.5, Number.NaN, 800, Number.NaN]);
    expect([...na.says]).toEqual([said.value, said.below, said.nothing, said.above, said.unreadable]);
    expect(na.mark).toBe(',');
    expect(texts(table.columns[3])).toEqual(['', 'thin; crust', '', '', ''].with(2, 'said "dusty"'));
    expect(table.unread).toMatchObject([
      { place: { row: 9, column: 3, header: 'Na' }, what: '"lost" is no figure' },
    ]);
  });

  it('a mark that no cell proves is left open, thousands are named', () => {
    const table = read('a,b,c\nx,"1,234","1.234,5"\ny,"2,345",7\n');
    expect(figures(table.columns[1]).mark).toBe('ask');
    expect(table.unreadable).toBe(1);
    expect(table.unread[0].what).toBe('"1.234,5" has separators of thousands');
  });

  it('is the same in every encoding and with every line end', () => {
    const plain = read(file);
    const wide = new Uint8Array(Uint16Array.from(`\ufeff${file}`, (one) => one.charCodeAt(0)).buffer);
    for (const bytes of [
      utf8(`\ufeff${file}`),
      wide,
      utf8(file.replaceAll('\n', '\r\n')),
      utf8(file.replaceAll('\n', '\r')),
    ]) {
      const table = readColumns(bytes, 'ions.csv');
      expect(table.rows).toBe(5);
      expect(texts(table.columns[0])).toEqual(texts(plain.columns[0]));
      expect([...figures(table.columns[2]).values]).toEqual([...figures(plain.columns[2]).values]);
      expect(table.unread).toEqual(plain.unread);
    }
    const latin = Uint8Array.from('Größe;Länge (cm)\nklein;1,5\n', (one) => one.charCodeAt(0));
    expect(readColumns(latin, 'a.csv').columns[0].text).toBe('Größe');
  });

  it('a row with fewer cells than the heading has blanks; one with more makes a column without a name, or is named', () => {
    const table = read('a,b,c\n1,2,3\n4\n5,6,7,8\n');
    expect([...figures(table.columns[2]).values]).toEqual([3, Number.NaN, 7]);
    expect(table.columns.map(({ text }) => text)).toEqual(['a', 'b', 'c', '']);
    // beyond the part of the file in which the heading is looked for
    const long = `a,b,c\n${'1,2,3\n'.repeat(30_000)}5,6,7,8\n`;
    expect(read(long).unread).toMatchObject([{ place: { row: 30_002, column: 4 } }]);
  });

  it('a cell of many lines may run over the end of the part in which the heading is looked for', () => {
    const note = `"${'two lines\n'.repeat(40)}"`;
    const table = read(`a;note\n${`1;${note}\n`.repeat(900)}`);
    expect(table.rows).toBe(900);
    expect(table.unread).toEqual([]);
  });

  it('refuses a file without a table', () => {
    expect(() => read('just words\n')).toThrow('there is no table in it');
  });

  it('every figure is the double that the platform reads from the same text (ECMA-262, StringToNumber)', () => {
    const number = fc.oneof(
      fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
      fc.integer().map(String),
      fc
        .tuple(fc.integer({ min: -1e6, max: 1e6 }), fc.integer({ min: 1, max: 9 }))
        .map(([n, d]) => (n / 10 ** d).toFixed(d)),
      fc.tuple(fc.bigInt({ min: 0n, max: 10n ** 25n }), fc.integer({ min: 0, max: 25 })).map(([n, d]) => {
        const digits = String(n).padStart(d + 1, '0');
        return d === 0 ? digits : `${digits.slice(0, -d)}.${digits.slice(-d)}`;
      }),
    );
    fc.assert(
      fc.property(fc.array(number, { minLength: 1, maxLength: 60 }), (numbers) => {
        const table = read(`name;value\n${numbers.map((one, i) => `s${i};${one}`).join('\n')}\n`);
        const { values } = figures(table.columns[1]);
        expect(
          [...values].map((value, i) =>
            Object.is(value, Number(numbers[i])) ? 0 : `${numbers[i]} is ${value}`,
          ),
        ).toEqual(numbers.map(() => 0));
      }),
      { numRuns: 300 },
    );
  });

  it('cells are cut as a general-purpose reader cuts them (papaparse)', () => {
    const cell = fc.oneof(
      fc.constantFrom('', 'a', 'b;c', '"', 'x\ny', ' lead', '""', 'é', '-'),
      fc.integer().map(String),
    );
    const rows = fc.array(fc.tuple(cell, cell, cell), { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(rows, fc.constantFrom('\n', '\r\n'), (list, newline) => {
        // a first column of figures: no row is blank, and none looks like a heading
        const full = list.map((row, i) => [String(i), ...row]);
        const text = Papa.unparse([['no', 'aa', 'bb', 'cc'], ...full], { delimiter: ';', newline });
        const table = read(text);
        const peer = Papa.parse<string[]>(text, { delimiter: ';' }).data.slice(1);
        expect(table.rows).toBe(peer.length);
        table.columns.forEach((column, i) => {
          if (column.holds === 'words')
            expect(texts(column).map((one) => one.replaceAll('\r\n', '\n'))).toEqual(
              peer.map((row) => row[i].trim().replaceAll('\r\n', '\n')),
            );
          else
            expect([...column.says].map((one) => one === said.value)).toEqual(
              peer.map((row) => /^\s*[+-]?\d+\s*$/.test(row[i])),
            );
        });
      }),
      { numRuns: 300 },
    );
  });
});
