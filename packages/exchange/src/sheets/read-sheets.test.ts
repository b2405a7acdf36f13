import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import writeXlsxFile from 'write-excel-file/node';
import { textOf } from './cells.ts';
import { readSheets } from './read-sheets.ts';
import type { SheetTable } from './tables.ts';
import { rawRow, rawWorkbook } from './workbook.suite.ts';

const utf8 = (text: string) => new TextEncoder().encode(text);
const read = (text: string) => readSheets(utf8(text), 'log.csv');
const grid = (table: SheetTable) => [
  table.columns.map(({ words, unit }) => (unit === null ? words : `${words} [${unit}]`)),
  ...table.rows.map((row) => row.cells.map(textOf)),
];
const only = (text: string) => {
  const { tables } = read(text);
  expect(tables).toHaveLength(1);
  return tables[0];
};

describe('one table of a text file', () => {
  const plain = [
    ['run', 'depth from [m]'],
    ['1', '0,00'],
    ['2', '0,98'],
  ];
  const lines = 'run;depth_from_m\n1;0,00\n2;0,98\n';
  const latin = (text: string) => Uint8Array.from(text, (one) => one.charCodeAt(0));
  const wide = (text: string, isLittle: boolean, hasMark: boolean) => {
    const codes = [...(hasMark ? '\ufeff' : ''), ...text].map((one) => one.charCodeAt(0));
    return Uint8Array.from(
      codes.flatMap((code) => (isLittle ? [code & 255, code >> 8] : [code >> 8, code & 255])),
    );
  };

  it.each([
    ['LF', utf8(lines)],
    ['CR LF', utf8(lines.replaceAll('\n', '\r\n'))],
    ['the old Macintosh', utf8(lines.replaceAll('\n', '\r'))],
    ['a byte order mark', utf8(`\ufeff${lines}`)],
    ['Latin-1', latin(lines)],
    ['UTF-16 LE with mark', wide(lines, true, true)],
    ['UTF-16 BE with mark', wide(lines, false, true)],
    ['UTF-16 LE without', wide(lines, true, false)],
    ['UTF-16 BE without', wide(lines, false, false)],
    ['no line end at the end', utf8(lines.trimEnd())],
    ['tabs', utf8(lines.replaceAll(';', '\t'))],
    ['bars', utf8(lines.replaceAll(';', '|'))],
    ['commas and quotation marks', utf8('run,depth_from_m\n1,"0,00"\n2,"0,98"\n')],
    ['blanks', utf8('run   depth_from_m\n  1   0,00\n  2   0,98\n')],
    ['sep= in the first line', utf8(`sep=;\n${lines}`)],
  ])('is the same with %s', (_, bytes) => {
    const { tables } = readSheets(bytes, 'log.csv');
    expect(tables.map(grid)).toEqual([plain]);
  });

  it('keeps letters of Latin-1 and says that it was one', () => {
    const { tables, remarks } = readSheets(latin('L\u00e4nge (cm);T / \u00b0C\n1;2\n'), 'log.csv');
    expect(grid(tables[0])[0]).toEqual(['lange [cm]', 't [\u00b0C]']);
    expect(remarks[0]).toContain('Windows-1252');
  });

  it('has a title, facts and comments above it', () => {
    const table = only(
      '# exported\nCore log of CER-B\nLogged by;KM\nDate;12.06.2026\n\nRun;From;To;Note\n1;0,00;0,98;\n2;0,98;1,95;thin crust\n',
    );
    expect(table.title).toEqual(['exported', 'Core log of CER-B', 'Logged by KM', 'Date 12.06.2026']);
    expect(table.headerRow).toBe(6);
    expect(grid(table)[0]).toEqual(['run', 'from', 'to', 'note']);
  });

  it('has a line of units below the heading, with a dash for none', () => {
    expect(grid(only('Run;Length;Temp\n-;cm;°C\n1;95,2;-21,5\n'))).toEqual([
      ['run', 'length [cm]', 'temp [°C]'],
      ['1', '95,2', '-21,5'],
    ]);
  });

  it('has a heading of two lines: a group’s name counts for the blank beside it, and not further', () => {
    expect(
      grid(only('Run;Depth;;Length;Note\n;from;to;cm;\n1;0,00;0,98;95,2;ok\n2;0,98;1,95;95,9;ok\n'))[0],
    ).toEqual(['run', 'depth from', 'depth to', 'length [cm]', 'note']);
  });

  it('goes on after a blank row, below its heading or between its rows, and after its heading printed again', () => {
    const table = only('run;to_m\n\n1;0,98\n\n2;1,95\n3;2,93\n\nrun;to_m\n4;3,91\n');
    expect(table.rows.map(({ row, cells }) => [row, cells[0]])).toEqual([
      [3, '1'],
      [5, '2'],
      [6, '3'],
      [9, '4'],
    ]);
  });

  it('numbers lines as an editor does, over line feeds in quotation marks', () => {
    expect(only('run,note\n1,"two\nlines"\n2,x\n').rows.map(({ row }) => row)).toEqual([2, 4]);
  });

  it('may be all words', () => {
    expect(grid(only('initials,name\nKM,Karo M\nHN,Hanno N\n'))).toEqual([
      ['initials', 'name'],
      ['KM', 'Karo M'],
      ['HN', 'Hanno N'],
    ]);
  });
});

describe('several tables', () => {
  it('one below the other, each with its heading and title', () => {
    const { tables } = read(
      'Runs\nrun;from_m;to_m\n1;0,00;0,98\n2;0,98;1,95\n\nSoundings by tape\nafter run;hole depth (m);sd (cm)\n2;1,96;2\n',
    );
    expect(tables.map(({ title }) => title)).toEqual([['Runs'], ['Soundings by tape']]);
    expect(tables.map((table) => table.rows.length)).toEqual([2, 1]);
    expect(grid(tables[1])[0]).toEqual(['after run', 'hole depth [m]', 'sd [cm]']);
  });

  it('side by side, parted by a blank column', () => {
    const { tables } = read('run;to_m;;run;length_cm\n1;0,98;;1;95,2\n2;1,95;;2;53,1\n;;;2;42,8\n');
    expect(tables.map(grid)).toEqual([
      [
        ['run', 'to [m]'],
        ['1', '0,98'],
        ['2', '1,95'],
      ],
      [
        ['run', 'length [cm]'],
        ['1', '95,2'],
        ['2', '53,1'],
        ['2', '42,8'],
      ],
    ]);
  });

  it('a blank column inside a table parts nothing', () => {
    expect(grid(only('run;from_m;;to_m\n1;0,00;;0,98\n2;0,98;;1,95\n'))[0]).toEqual([
      'run',
      'from [m]',
      'to [m]',
    ]);
  });
});

describe('a workbook', () => {
  it('that a library wrote is read as it was: sheets, numbers, dates, texts', async () => {
    const header = ['Run', 'Depth to (m)', 'Date', 'Note'].map((value) => ({ value }));
    const bytes = await writeXlsxFile([
      {
        sheet: 'Runs',
        data: [
          header,
          [
            { value: 1, type: Number },
            { value: 0.1 + 0.2, type: Number },
            { value: new Date('2026-06-14T08:30:00Z'), type: Date, format: 'yyyy-mm-dd hh:mm' },
            { value: 'thin <crust> & dust', type: String },
          ],
        ],
      },
      {
        sheet: 'People',
        data: [
          [{ value: 'initials' }, { value: 'name' }],
          [{ value: 'KM' }, { value: 'Karo M' }],
        ],
      },
    ]).toBuffer();
    const { tables } = readSheets(new Uint8Array(bytes), 'log.xlsx');
    expect(tables.map(({ sheet }) => sheet)).toEqual(['Runs', 'People']);
    expect(tables[0].rows[0].cells).toEqual([
      { as: 'number', text: '1' },
      { as: 'number', text: '0.30000000000000004' },
      { as: 'date', text: '2026-06-14T08:30:00' },
      'thin <crust> & dust',
    ]);
  });

  const sheetOf = (rows: string, more: { after?: string; before?: string } = {}) =>
    rawWorkbook([{ name: 'Log', rows, ...more }]);
  const tableOf = (bytes: Uint8Array) => readSheets(bytes, 'log.xlsx').tables[0];

  it('merged words above columns are the name of the group', () => {
    const rows =
      rawRow(1, ['Core log', null, null, null]) +
      rawRow(2, ['Run', 'Depth', null, 'Length']) +
      rawRow(3, [null, 'from', 'to', null]) +
      rawRow(4, [null, 'm', 'm', 'cm']) +
      rawRow(5, [1, 0, 0.98, 95.2]);
    const merges =
      '<mergeCells><mergeCell ref="A1:D1"/><mergeCell ref="B2:C2"/><mergeCell ref="A2:A4"/></mergeCells>';
    const table = tableOf(sheetOf(rows, { after: merges }));
    expect(grid(table)[0]).toEqual(['run', 'depth from [m]', 'depth to [m]', 'length [cm]']);
    expect(table.title).toEqual(['Core log']);
  });

  it('a merged cell beside rows counts for each of them, and says that it does', () => {
    const rows =
      rawRow(1, ['Run', 'Piece', 'Mass (g)']) +
      rawRow(2, [7, 1, 3211]) +
      rawRow(3, [null, 2, null]) +
      rawRow(4, [8, 1, 900]);
    const merges = '<mergeCells><mergeCell ref="A2:A3"/><mergeCell ref="C2:C3"/></mergeCells>';
    const table = tableOf(sheetOf(rows, { after: merges }));
    expect(table.rows.map(({ cells }) => textOf(cells[0]))).toEqual(['7', '7', '8']);
    expect(table.rows[1].merged).toEqual([0, 2]);
  });

  it('counts its days from 1904 where it says so', () => {
    const rows = rawRow(1, ['Run', 'Date']) + rawRow(2, [1, { xml: '<c r="R" s="1"><v>44725</v></c>' }]);
    const is1904 = readSheets(rawWorkbook([{ name: 'Log', rows }], { is1904: true }), 'log.xlsx');
    expect(is1904.tables[0].rows[0].cells[1]).toEqual({ as: 'date', text: '2026-06-14' });
    expect(is1904.remarks).toContain('The workbook counts its days from 1904.');
    expect(textOf(tableOf(sheetOf(rows)).rows[0].cells[1])).toBe('2022-06-13');
  });

  it('a cell that shows 5 % says 5 %, not 0.05', () => {
    const styles =
      '<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><cellXfs><xf numFmtId="0"/><xf numFmtId="9"/></cellXfs></styleSheet>';
    const rows = rawRow(1, ['Run', 'Missing']) + rawRow(2, [1, { xml: '<c r="R" s="1"><v>0.07</v></c>' }]);
    expect(tableOf(rawWorkbook([{ name: 'Log', rows }], { styles })).rows[0].cells[1]).toBe('7 %');
  });

  it('formulas count with their stored value; one without is named with sheet, row and column', () => {
    const rows =
      rawRow(1, ['Run', 'Length (cm)']) +
      rawRow(2, [1, { xml: '<c r="R"><f>2*47.6</f><v>95.2</v></c>' }]) +
      rawRow(3, [2, { xml: '<c r="R"><f>SUM(B2)</f></c>' }]) +
      rawRow(4, [3, { xml: '<c r="R" t="e"><f>1/0</f><v>#DIV/0!</v></c>' }]);
    const { tables, unread } = readSheets(sheetOf(rows), 'log.xlsx');
    expect(tables[0].rows.map(({ cells }) => cells[1])).toEqual([
      { as: 'number', text: '95.2' },
      { as: 'error', text: '' },
      { as: 'error', text: '#DIV/0!' },
    ]);
    expect(unread).toMatchObject([
      { place: { sheet: 'Log', row: 3, column: 2 }, what: 'the formula holds no value' },
    ]);
  });

  it('says which sheets, rows and columns are hidden', () => {
    const table = rawRow(1, ['Run', 'To (m)']) + rawRow(2, [1, 0.98]).replace('<row ', '<row hidden="1" ');
    const { remarks, tables } = readSheets(
      rawWorkbook([
        { name: 'Log', rows: table, before: '<cols><col min="2" max="2" hidden="1"/></cols>' },
        { name: 'Old', rows: table, state: 'veryHidden' },
      ]),
      'log.xlsx',
    );
    expect(tables.map(({ isHidden }) => isHidden)).toEqual([false, true]);
    expect(remarks).toEqual([
      'Sheet Log has 1 hidden row and 1 hidden column; they were read too.',
      'Sheet Old is hidden in the workbook.',
      'Sheet Old has 1 hidden row; they were read too.',
    ]);
  });

  it('reads shared texts in parts, without the reading aids above them', () => {
    const strings =
      '<si><t>Run</t></si><si><r><t>Len</t></r><r><t>gth (cm)</t></r><rPh sb="0" eb="1"><t>aside</t></rPh></si>';
    const rows =
      rawRow(1, [{ xml: '<c r="R" t="s"><v>0</v></c>' }, { xml: '<c r="R" t="s"><v>1</v></c>' }]) +
      rawRow(2, [1, 95.2]);
    expect(grid(tableOf(rawWorkbook([{ name: 'Log', rows }], { strings })))[0]).toEqual([
      'run',
      'length [cm]',
    ]);
  });

  it('cells without references stand one after the other', () => {
    const rows =
      '<row><c t="inlineStr"><is><t>Run</t></is></c><c t="inlineStr"><is><t>To (m)</t></is></c></row><row><c><v>1</v></c><c><v>0.98</v></c></row>';
    expect(grid(tableOf(sheetOf(rows)))).toEqual([
      ['run', 'to [m]'],
      ['1', '0.98'],
    ]);
  });
});

const shared = (name: string): Uint8Array | null => {
  try {
    return new Uint8Array(readFileSync(new URL(`../../../../../shared/data/${name}`, import.meta.url)));
  } catch {
    return null;
  }
};

/** Cells of a column as a plain split gives them, which these files allow. */
const split = (bytes: Uint8Array, separator: string, skipped: number, column: number): readonly string[] =>
  new TextDecoder('latin1')
    .decode(bytes)
    .split(/\r?\n/)
    .slice(skipped)
    .map((line) => line.split(separator)[column] ?? '')
    .filter((cell) => cell !== '');

describe('published files', () => {
  // Erhardt et al. 2019, doi:10.5194/cp-15-811-2019: seventeen lines of comment above the heading
  const ngrip = shared('ngrip_neem/NGRIP_10yr.csv');
  it.skipIf(ngrip === null)('ngrip_neem/NGRIP_10yr.csv', () => {
    const { tables } = readSheets(ngrip!, 'NGRIP_10yr.csv');
    expect(tables).toHaveLength(1);
    expect(tables[0].columns.map(({ text }) => text)).toEqual(['Age_BP', 'Na', 'Ca', 'lt', 'd18O']);
    expect(tables[0].rows.map(({ cells }) => cells[0])).toEqual(split(ngrip!, ',', 18, 0));
    expect(tables[0].title[0]).toContain('Decadal averaged CFA');
  });

  // WAIS Divide accumulation, doi:10.15784/601274: two tables side by side, decimal commas
  const wais = shared('wd2014/WDC_accumulation_50yr.csv');
  it.skipIf(wais === null)('wd2014/WDC_accumulation_50yr.csv', () => {
    const { tables } = readSheets(wais!, 'WDC_accumulation_50yr.csv');
    expect(tables.map(({ columns }) => columns.length)).toEqual([2, 2]);
    expect(tables[0].rows.map(({ cells }) => cells[1])).toEqual(split(wais!, ';', 4, 1));
    expect(tables[1].rows.map(({ cells }) => cells[1])).toEqual(split(wais!, ';', 4, 4));
  });

  // Dronning Maud Land core B31, presumably Graf et al. 2002: ten columns, units in brackets, many blank cells
  const b31 = shared('b31_b32/B31_Isotope_Age.txt');
  it.skipIf(b31 === null)('b31_b32/B31_Isotope_Age.txt', () => {
    const [table] = readSheets(b31!, 'B31_Isotope_Age.txt').tables;
    expect(table.columns.map(({ unit }) => unit)).toEqual([
      ...['ka BP', 'm', 'year AD', 'm', 'm', 'kg/m**3', 'kg/m**2/a'],
      ...['per mil SMOW', 'per mil SMOW', 'per mil SMOW'],
    ]);
    expect(table.rows.map(({ cells }) => cells[4])).toEqual(split(b31!, '\t', 1, 4));
  });
});
