import Papa from 'papaparse';

export type Delimiter = '\t' | ';' | ',' | '|' | ' ';

/** Lines looked at. */
const sample = 60;
const candidates = ['\t', ';', ',', '|'] as const;

/**
 * The separator of a table: the one that cuts the header into the most even table. Where none cuts it, blanks in
 * runs (a table set in columns) or a table of one column.
 *
 * @param text from the header line on
 */
export const findDelimiter = (text: string): Delimiter => {
  let best: Delimiter | null = null;
  let bestScore = 0;
  for (const delimiter of candidates) {
    const { data } = Papa.parse<string[]>(text, {
      delimiter,
      newline: '\n',
      preview: sample,
      skipEmptyLines: true,
    });
    const width = data[0]?.length ?? 0;
    if (width < 2) continue;
    const even = data.filter((row) => row.length === width).length / data.length;
    // an even table wins; among even ones the first candidate, since a decimal comma cuts evenly as well
    const score = even + (even === 1 ? 1 : 0);
    if (score > bestScore + 1e-9) {
      best = delimiter;
      bestScore = score;
    }
  }
  return best ?? ' ';
};
