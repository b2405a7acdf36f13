import { TableError } from '../trouble.ts';
import { type DateSystem, type Shown, shownAs } from './excel-dates.ts';
import { limits, tooLarge } from './limits.ts';
import type { Archive } from './xlsx-archive.ts';
import { attribute, walkXml } from './xlsx-xml.ts';

export interface BookSheet {
  readonly name: string;
  readonly isHidden: boolean;
  /** Path of its part. */
  readonly path: string;
}

/** What all sheets of a workbook go by. */
export interface Workbook {
  readonly sheets: readonly BookSheet[];
  readonly dates: DateSystem;
  /** Texts that cells name by number. */
  readonly strings: readonly string[];
  /** What each cell style makes of a number. */
  readonly styles: readonly Shown[];
}

/** @throws TableError for a packed file that holds no workbook */
export const readWorkbook = (archive: Archive, file: string): Workbook => {
  const main = mainPart(archive, file);
  const text = archive.text(main);
  if (text === null) throw noWorkbook(file);
  const targets = relations(archive, file, main);
  const sheets: BookSheet[] = [];
  let dates: DateSystem = 1900;
  walkXml(text, file, main, {
    open: (name, attributes) => {
      if (name === 'workbookPr') {
        const flag = attribute(attributes, 'date1904');
        if (flag === '1' || flag === 'true') dates = 1904;
      }
      if (name !== 'sheet') return;
      if (sheets.length >= limits.sheets)
        throw tooLarge(file, `the workbook has more than ${limits.sheets} sheets`);
      const path = targets.get(attribute(attributes, 'id'));
      const state = attribute(attributes, 'state');
      if (path !== undefined)
        sheets.push({
          name: attribute(attributes, 'name'),
          isHidden: state === 'hidden' || state === 'veryHidden',
          path,
        });
    },
  });
  if (sheets.length === 0) throw noWorkbook(file);
  const beside = (type: string) => [...targets.values()].find((path) => path.endsWith(`/${type}.xml`));
  return {
    sheets,
    dates,
    strings: sharedStrings(archive, file, beside('sharedStrings')),
    styles: cellStyles(archive, file, beside('styles')),
  };
};

const mainPart = (archive: Archive, file: string): string => {
  let path: string | null = null;
  const text = archive.text('_rels/.rels');
  if (text === null) throw noWorkbook(file);
  walkXml(text, file, '_rels/.rels', {
    open: (name, attributes) => {
      if (name === 'Relationship' && attribute(attributes, 'Type').endsWith('/officeDocument'))
        path ??= attribute(attributes, 'Target').replace(/^\//, '');
    },
  });
  if (path === null) throw noWorkbook(file);
  return path;
};

/** Paths of the parts that the main part names, by the name it gives them. Never a path outside of the file. */
const relations = (archive: Archive, file: string, main: string): ReadonlyMap<string, string> => {
  const cut = main.lastIndexOf('/') + 1;
  const folder = main.slice(0, cut);
  const path = `${folder}_rels/${main.slice(cut)}.rels`;
  const targets = new Map<string, string>();
  const text = archive.text(path);
  if (text === null) return targets;
  walkXml(text, file, path, {
    open: (name, attributes) => {
      if (name !== 'Relationship' || attribute(attributes, 'TargetMode') === 'External') return;
      const target = attribute(attributes, 'Target');
      const whole = target.startsWith('/') ? target.slice(1) : folder + target.replace(/^\.\//, '');
      targets.set(attribute(attributes, 'Id'), whole.replace(/[^/]+\/\.\.\//g, ''));
    },
  });
  return targets;
};

const sharedStrings = (archive: Archive, file: string, path: string | undefined): readonly string[] => {
  const strings: string[] = [];
  const text = path === undefined ? null : archive.text(path);
  if (text === null) return strings;
  let current = '';
  let isText = false;
  // readings aids printed above a word (rPh) are not part of it
  let aside = 0;
  walkXml(text, file, path!, {
    open: (name) => {
      if (name === 'si') current = '';
      if (name === 'rPh') aside += 1;
      isText = name === 't' && aside === 0;
    },
    text: (part) => {
      if (isText) current += part;
    },
    close: (name) => {
      if (name === 'rPh') aside -= 1;
      if (name === 't') isText = false;
      if (name === 'si') strings.push(current.slice(0, limits.text));
    },
  });
  return strings;
};

const cellStyles = (archive: Archive, file: string, path: string | undefined): readonly Shown[] => {
  const shows: Shown[] = [];
  const text = path === undefined ? null : archive.text(path);
  if (text === null) return shows;
  const codes = new Map<number, string>();
  let isCell = false;
  walkXml(text, file, path!, {
    open: (name, attributes) => {
      if (name === 'numFmt')
        codes.set(Number(attribute(attributes, 'numFmtId')), attribute(attributes, 'formatCode'));
      if (name === 'cellXfs') isCell = true;
      if (name !== 'xf' || !isCell) return;
      const id = Number(attribute(attributes, 'numFmtId') || '0');
      shows.push(shownAs(id, codes.get(id)));
    },
    close: (name) => {
      if (name === 'cellXfs') isCell = false;
    },
  });
  return shows;
};

const noWorkbook = (file: string): TableError =>
  new TableError(
    'this packed file holds no XLSX workbook',
    { file },
    'Save the table as XLSX or CSV and use that file.',
  );
