import { readFileSync } from 'node:fs';

/** One entry of the sheet of check values that lies beside the project (not a part of it). */
export interface PublishedCheck {
  readonly section: string;
  readonly id: string;
  readonly inputs: Readonly<Record<string, never>>;
  readonly expected: never;
  readonly tol: string;
}

/** Entries of one section, null where the sheet is not there. */
export const publishedChecks = (section: string): readonly PublishedCheck[] | null => {
  try {
    const sheet = new URL('../../../../shared/reference/checks.json', import.meta.url);
    const all = JSON.parse(readFileSync(sheet, 'utf8')) as readonly PublishedCheck[];
    return all.filter((check) => check.section === section);
  } catch {
    return null;
  }
};

/** Text of a file of the open data that lie beside the project, null where it is not there. */
export const openData = (name: string): string | null => {
  try {
    return readFileSync(new URL(`../../../../shared/data/${name}`, import.meta.url), 'utf8');
  } catch {
    return null;
  }
};

/** Rows of a table, cells by header; empty cells are NaN where read as a number. */
export const openTable = (name: string, separator = '\t') => {
  const text = openData(name);
  if (text === null) return null;
  const [header, ...lines] = text.trim().split(/\r?\n/);
  const names = header.split(separator);
  return lines.map((line) => {
    const cells = line.split(separator);
    return {
      text: (column: string) => cells[names.indexOf(column)] ?? '',
      number: (column: string) => {
        const cell = cells[names.indexOf(column)]?.trim() ?? '';
        return cell === '' ? Number.NaN : Number(cell);
      },
    };
  });
};
