import fc from 'fast-check';
import { zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { TableError } from '../trouble.ts';
import { readSheets } from './read-sheets.ts';
import { rawRow, rawWorkbook } from './workbook.suite.ts';

const utf8 = (text: string) => new TextEncoder().encode(text);
const csv = (text: string) => () => readSheets(utf8(text), 'log.csv');
const xlsx = (bytes: Uint8Array) => () => readSheets(bytes, 'log.xlsx');
const table = rawRow(1, ['Run', 'To (m)']) + rawRow(2, [1, 0.98]);

describe('files that are not what they should be', () => {
  it.each([
    ['an empty file', csv(''), 'the file is empty'],
    ['bytes', xlsx(Uint8Array.from([1, 0, 2, 0, 0, 3])), 'not a text file'],
    ['prose', csv('Dear all,\nthe core is fine.\n'), 'no table in it'],
    [
      'a spreadsheet of before 2007',
      xlsx(Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1])),
      'old kind (XLS)',
    ],
    ['half a workbook', xlsx(rawWorkbook([{ name: 'Log', rows: table }]).subarray(0, 400)), 'damaged'],
    ['another packed file', xlsx(zipSync({ 'a.txt': utf8('a') })), 'no XLSX workbook'],
    ['a quotation mark that is never closed', csv('a,b\n1,"2\n3,4\n'), 'line 2: a quotation mark'],
  ])('%s is refused with what to do', (_, work, words) => {
    expect(work).toThrow(words);
  });
});

describe('files that mean harm', () => {
  it('a packed part that unpacks to far more than its size is refused before it is unpacked', () => {
    const bomb = rawWorkbook([{ name: 'Log', rows: `${table}${' '.repeat(5 * 2 ** 20)}` }]);
    expect(bomb.length).toBeLessThan(20_000);
    expect(xlsx(bomb)).toThrow(/sheet1\.xml unpacks to \d+ times its size/);
  });

  /** Writes sizes into the table of contents, which readers believe (APPNOTE 6.3.10, 4.3.12; from memory). */
  const withSizes = (sizes: { readonly packed?: number; readonly unpacked: number }): Uint8Array => {
    const bytes = rawWorkbook([{ name: 'Log', rows: table }]);
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    for (let at = 0; at < bytes.length - 46; at++) {
      if (view.getUint32(at, true) !== 0x02014b50) continue;
      if (sizes.packed !== undefined) view.setUint32(at + 20, sizes.packed, true);
      view.setUint32(at + 24, sizes.unpacked, true);
    }
    return bytes;
  };

  it('so are parts that are large together', () => {
    expect(xlsx(withSizes({ packed: 50 * 2 ** 20, unpacked: 150 * 2 ** 20 }))).toThrow(
      'unpacks to more than 400 MB',
    );
  });

  it('and a part that lies about its size', () => {
    expect(xlsx(withSizes({ unpacked: 20 }))).toThrow(/damaged|not well-formed/);
  });

  it('elements nested without end are refused', () => {
    const deep = '<a>'.repeat(100_000) + '</a>'.repeat(100_000);
    expect(xlsx(rawWorkbook([{ name: 'Log', rows: deep }]))).toThrow('nested more than 64 deep');
  });

  it('entities are neither expanded nor fetched', () => {
    const sheet =
      '<!DOCTYPE worksheet [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;"><!ENTITY f SYSTEM "file:///etc/hostname">]><worksheet><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>&b;&f;</t></is></c></row></sheetData></worksheet>';
    const bytes = rawWorkbook([{ name: 'Log', rows: table }], {
      extra: { 'xl/worksheets/sheet1.xml': sheet },
    });
    // `extra` replaces the sheet's part
    expect(xlsx(bytes)).toThrow('has a document type');
  });

  it('a sheet that says it is as large as can be, with one cell in its last corner, costs nothing', () => {
    const rows = `${table}<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>`;
    const before = '<dimension ref="A1:XFD1048576"/>';
    const after = '<mergeCells><mergeCell ref="A3:XFD1048575"/></mergeCells>';
    const start = performance.now();
    const { tables } = readSheets(rawWorkbook([{ name: 'Log', rows, before, after }]), 'log.xlsx');
    expect(tables[0].columns.map(({ text }) => text)).toEqual(['Run', 'To (m)']);
    expect(performance.now() - start).toBeLessThan(2_000);
  });

  it('cells beyond the last column or row are refused', () => {
    const far = (place: string) => `${table}<row r="3"><c r="${place}"><v>1</v></c></row>`;
    for (const place of ['XFE3', 'ZZZ3', 'A1048577'])
      expect(xlsx(rawWorkbook([{ name: 'Log', rows: far(place) }]))).toThrow(
        'beyond column XFD or row 1048576',
      );
  });

  it('a million columns, or more cells than a season has, are refused', () => {
    expect(csv(`${','.repeat(1_000_000)}\n1,2\n`)).toThrow('more than 16384 cells');
    expect(csv(`a,b,c,d,e,f,g,h\n${',,,,,,,\n'.repeat(600_000)}`)).toThrow('more than 4000000 cells');
  });

  it('headings and sheets called like parts of the language are headings and sheets', () => {
    const words = ['__proto__', 'constructor', 'toString', 'hasOwnProperty'];
    const { tables } = readSheets(utf8(`${words.join(',')}\n1,2,3,4\n`), '__proto__');
    expect(tables[0].columns.map(({ text }) => text)).toEqual(words);
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
    expect(readSheets(rawWorkbook([{ name: '__proto__', rows: table }]), 'a.xlsx').tables[0].sheet).toBe(
      '__proto__',
    );
  });

  it('a workbook’s parts are found inside of it alone', () => {
    const rels =
      '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="x/worksheet" Target="../../../../etc/hostname"/><Relationship Id="rId2" Type="x/worksheet" Target="http://ceredin.example/a.xml" TargetMode="External"/></Relationships>';
    const bytes = rawWorkbook([{ name: 'Log', rows: table }], {
      extra: { 'xl/_rels/workbook.xml.rels': rels },
    });
    expect(xlsx(bytes)).toThrow('no table in it');
  });
});

describe('any bytes', () => {
  const isSaid = (bytes: Uint8Array, name: string): void => {
    try {
      readSheets(bytes, name);
    } catch (error) {
      // whatever else it throws is a fault of ours
      expect(error).toBeInstanceOf(TableError);
    }
  };

  it('give tables, or words about what is wrong', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 400 }), (bytes) => isSaid(bytes, 'log.csv')));
    const piece = fc.constantFrom(
      'a',
      '1',
      ',',
      ';',
      '\t',
      '\n',
      '\r',
      '"',
      '#',
      ' ',
      '0,5',
      '-',
      'é',
      '1/2/26',
      '|',
      'cm',
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 80 }), (parts) => isSaid(utf8(parts.join('')), 'log.csv')),
      { numRuns: 2_000 },
    );
  });

  it('so does a workbook with bytes changed anywhere', () => {
    const bytes = rawWorkbook([{ name: 'Log', rows: table }], { strings: '<si><t>a</t></si>' });
    const change = fc.tuple(fc.nat({ max: bytes.length - 1 }), fc.nat({ max: 255 }));
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 6 }), (changes) => {
        const changed = bytes.slice();
        for (const [at, value] of changes) changed[at] = value;
        isSaid(changed, 'log.xlsx');
      }),
      { numRuns: 2_000 },
    );
  });

  it('and a workbook whose sheet holds any elements in any order', () => {
    const tag = fc.constantFrom('row', 'c', 'v', 'f', 'is', 't', 'mergeCell', 'rPh', 'col');
    const attributes = fc.constantFrom(
      '',
      ' r="B2"',
      ' r="9"',
      ' t="s"',
      ' t="b"',
      ' t="x"',
      ' s="99"',
      ' ref="A1"',
      ' max="x"',
    );
    const element = fc.oneof(
      fc.tuple(tag, attributes).map(([name, more]) => `<${name}${more}/>`),
      fc
        .tuple(tag, attributes, fc.constantFrom('', '1', 'x', '1e400'))
        .map(([name, more, text]) => `<${name}${more}>${text}</${name}>`),
      fc
        .tuple(tag, attributes, tag)
        .map(([name, more, inner]) => `<${name}${more}><${inner}>2</${inner}></${name}>`),
    );
    fc.assert(
      fc.property(fc.array(element, { maxLength: 12 }), (parts) =>
        isSaid(rawWorkbook([{ name: 'Log', rows: `${table}${parts.join('')}` }]), 'log.xlsx'),
      ),
      { numRuns: 400 },
    );
  });
});
