import { strToU8, zipSync } from 'fflate';

/** A workbook made by hand, for what libraries don't write: merged, hidden, 1904, formulas, hostile. */
export interface RawSheet {
  readonly name: string;
  readonly state?: 'hidden' | 'veryHidden';
  /** XML inside of sheetData. */
  readonly rows: string;
  /** XML after sheetData. */
  readonly after?: string;
  /** XML before sheetData. */
  readonly before?: string;
}

const head = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>';
const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const rel = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const packageRel = 'http://schemas.openxmlformats.org/package/2006/relationships';

export const rawWorkbook = (
  sheets: readonly RawSheet[],
  options: {
    readonly is1904?: boolean;
    readonly strings?: string;
    readonly styles?: string;
    readonly extra?: Readonly<Record<string, string>>;
  } = {},
): Uint8Array => {
  const files: Record<string, Uint8Array> = {
    '_rels/.rels': strToU8(
      `${head}<Relationships xmlns="${packageRel}"><Relationship Id="rId1" Type="${rel}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    ),
    'xl/workbook.xml': strToU8(
      `${head}<workbook xmlns="${main}" xmlns:r="${rel}"><workbookPr${options.is1904 ? ' date1904="1"' : ''}/><sheets>${sheets
        .map(
          ({ name, state }, i) =>
            `<sheet name="${name}" sheetId="${i + 1}"${state === undefined ? '' : ` state="${state}"`} r:id="rId${i + 1}"/>`,
        )
        .join('')}</sheets></workbook>`,
    ),
    'xl/_rels/workbook.xml.rels': strToU8(
      `${head}<Relationships xmlns="${packageRel}">${sheets
        .map(
          (_, i) =>
            `<Relationship Id="rId${i + 1}" Type="${rel}/worksheet" Target="worksheets/sheet${i + 1}.xml"/>`,
        )
        .join(
          '',
        )}<Relationship Id="rIdS" Type="${rel}/styles" Target="styles.xml"/><Relationship Id="rIdT" Type="${rel}/sharedStrings" Target="sharedStrings.xml"/></Relationships>`,
    ),
    'xl/styles.xml': strToU8(
      options.styles ??
        // style 1 is a day, 2 a day with time, 3 a time, 4 a format with the letters d and m in quotes only
        `${head}<styleSheet xmlns="${main}"><numFmts><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd\\ hh:mm"/><numFmt numFmtId="165" formatCode="0.00&quot; mm depth&quot;"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="164"/><xf numFmtId="20"/><xf numFmtId="165"/></cellXfs></styleSheet>`,
    ),
  };
  if (options.strings !== undefined)
    files['xl/sharedStrings.xml'] = strToU8(`${head}<sst xmlns="${main}">${options.strings}</sst>`);
  sheets.forEach(({ rows, before = '', after = '' }, i) => {
    files[`xl/worksheets/sheet${i + 1}.xml`] = strToU8(
      `${head}<worksheet xmlns="${main}">${before}<sheetData>${rows}</sheetData>${after}</worksheet>`,
    );
  });
  for (const [name, text] of Object.entries(options.extra ?? {})) files[name] = strToU8(text);
  return zipSync(files, { mtime: new Date('2026-06-14T00:00:00Z') });
};

const letters = (column: number): string => {
  let rest = column;
  let text = '';
  while (rest > 0) {
    text = String.fromCharCode(65 + ((rest - 1) % 26)) + text;
    rest = Math.floor((rest - 1) / 26);
  }
  return text;
};

/** A row of texts, numbers and blanks; `{ xml }` for a cell written by hand, with r="R" for its reference. */
export const rawRow = (
  number: number,
  cells: readonly (string | number | null | { readonly xml: string })[],
): string =>
  `<row r="${number}">${cells
    .map((cell, i) => {
      const place = `${letters(i + 1)}${number}`;
      if (cell === null) return '';
      if (typeof cell === 'object') return cell.xml.replace('r="R"', `r="${place}"`);
      if (typeof cell === 'number') return `<c r="${place}"><v>${cell}</v></c>`;
      const text = cell.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
      return `<c r="${place}" t="inlineStr"><is><t xml:space="preserve">${text}</t></is></c>`;
    })
    .join('')}</row>`;
