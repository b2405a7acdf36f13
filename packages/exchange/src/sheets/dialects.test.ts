import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import writeXlsxFile from 'write-excel-file/node';
import { textOf } from './cells.ts';
import { readSheets } from './read-sheets.ts';
import { rawRow, rawWorkbook } from './workbook.suite.ts';

/** A table as somebody means it: words above (without separators in them), figures and words below, blank cells. */
const column = fc.record({
  heading: fc.constantFrom(
    'Run',
    'From',
    'To',
    'Length',
    'Kommentar',
    'Größe',
    'δ¹⁸O',
    'Break (top)',
    'T / °C',
  ),
  isText: fc.boolean(),
});
const word = fc.constantFrom(
  'fits',
  'loss',
  'crust "thin"',
  'a;b',
  'c,d',
  'x|y',
  'two\nlines',
  'Łódź',
  'tab\there',
  'ä',
);
const table = fc
  .tuple(fc.array(column, { minLength: 2, maxLength: 6 }), fc.integer({ min: 1, max: 12 }))
  .chain(([columns, count]) =>
    fc.record({
      headings: fc.constant(columns.map(({ heading }, i) => `${heading} ${String.fromCharCode(97 + i)}`)),
      rows: fc.array(
        fc.tuple(
          ...columns.map(({ isText }, i) =>
            i === 0
              ? fc.integer({ min: 1, max: 9999 }).map(String)
              : isText
                ? fc.oneof(word, fc.constant(''))
                : fc.oneof(
                    fc
                      .integer({ min: -99_999, max: 99_999 })
                      .map((hundredths) => (hundredths / 100).toFixed(2)),
                    fc.constant(''),
                  ),
          ),
        ),
        { minLength: count, maxLength: count },
      ),
    }),
  );

const encoders = {
  'UTF-8': (text: string) => new TextEncoder().encode(text),
  'UTF-8 with mark': (text: string) => new TextEncoder().encode(`\ufeff${text}`),
  'UTF-16 LE': (text: string) => {
    const list = Uint16Array.from(`\ufeff${text}`, (one) => one.charCodeAt(0));
    return new Uint8Array(list.buffer);
  },
  'UTF-16 BE': (text: string) =>
    Uint8Array.from([...`\ufeff${text}`].flatMap((one) => [one.charCodeAt(0) >> 8, one.charCodeAt(0) & 255])),
} as const;

const quoted = (cell: string, separator: string, isAlways: boolean) =>
  isAlways || cell.includes(separator) || /["\n\r]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;

describe('any table in any dialect', () => {
  it('is read as it was written, cell for cell', () => {
    const dialect = fc.record({
      separator: fc.constantFrom(',', ';', '\t', '|'),
      end: fc.constantFrom('\n', '\r\n', '\r'),
      encoding: fc.constantFrom(...(Object.keys(encoders) as (keyof typeof encoders)[])),
      isComma: fc.boolean(),
      isQuoted: fc.boolean(),
      hasLastEnd: fc.boolean(),
      title: fc.constantFrom('', 'Core log of CER-B', 'Ceredin Saddle (invented)'),
    });
    fc.assert(
      fc.property(
        table,
        dialect,
        ({ headings, rows }, { separator, end, encoding, isComma, isQuoted, hasLastEnd, title }) => {
          const figures = rows.map((row) =>
            row.map((cell) => (isComma && /^-?\d+\.\d\d$/.test(cell) ? cell.replace('.', ',') : cell)),
          );
          const write = (cells: readonly string[]) =>
            cells.map((cell) => quoted(cell, separator, isQuoted)).join(separator);
          const titleLines = title === '' ? [] : [quoted(title, separator, false), ''];
          const lines = [...titleLines, write(headings), ...figures.map(write)];
          // a line feed inside a cell is written as every other line end of the file
          const text = lines.join('\n').replaceAll('\n', end) + (hasLastEnd ? end : '');
          const { tables } = readSheets(encoders[encoding](text), 'log.csv');
          expect(tables).toHaveLength(1);
          expect(tables[0].columns.map((one) => one.text)).toEqual(headings);
          expect(tables[0].rows.map((row) => row.cells)).toEqual(figures);
        },
      ),
      { numRuns: 600 },
    );
  });

  it('is the same in a workbook', () => {
    fc.assert(
      fc.property(table, ({ headings, rows }) => {
        const sheet =
          rawRow(1, headings) +
          rows
            .map((row, i) =>
              rawRow(
                i + 2,
                row.map((cell) =>
                  cell === '' ? null : /^-?\d+(?:\.\d\d)?$/.test(cell) ? Number(cell) : cell,
                ),
              ),
            )
            .join('');
        const { tables } = readSheets(rawWorkbook([{ name: 'Log', rows: sheet }]), 'log.xlsx');
        expect(tables).toHaveLength(1);
        const back = tables[0].rows.map((row) => row.cells.map(textOf));
        const meant = rows.map((row) =>
          row.map((cell) => (/^-?\d+(?:\.\d\d)?$/.test(cell) ? String(Number(cell)) : cell)),
        );
        expect(back).toEqual(meant);
      }),
      { numRuns: 150 },
    );
  });

  it('and as a general-purpose library writes workbooks (write-excel-file)', async () => {
    await fc.assert(
      fc.asyncProperty(table, async ({ headings, rows }) => {
        const cells = rows.map((row) =>
          row.map((cell) =>
            cell === '' ? null : /^-?\d+(?:\.\d\d)?$/.test(cell) ? { value: Number(cell) } : { value: cell },
          ),
        );
        const bytes = await writeXlsxFile([headings.map((value) => ({ value })), ...cells]).toBuffer();
        const { tables } = readSheets(new Uint8Array(bytes), 'log.xlsx');
        expect(tables).toHaveLength(1);
        expect(tables[0].rows.map((row) => row.cells.map(textOf))).toEqual(
          rows.map((row) =>
            row.map((cell) => (/^-?\d+(?:\.\d\d)?$/.test(cell) ? String(Number(cell)) : cell)),
          ),
        );
      }),
      { numRuns: 40 },
    );
  });
});
