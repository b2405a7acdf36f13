import type { ColumnBuilder } from './column-builder.ts';

const QUOTE = 0x22;
const LF = 0x0a;
const CR = 0x0d;
const HASH = 0x23;

/**
 * Cuts the bytes of a text table into cells (RFC 4180; lines end in LF, CR LF or CR) and hands each to its column's
 * builder. Blank lines and lines that begin with # are passed over.
 *
 * @param start byte where the first row begins, in `line`
 * @param builders by column from 0; null for columns that are not wanted
 * @param refuse told of each cell that could not be read, with its line and its column from 1
 * @returns how many rows there were
 */
export const scanRows = (
  bytes: Uint8Array,
  start: number,
  line: number,
  separator: number,
  builders: readonly (ColumnBuilder | null)[],
  refuse: (line: number, column: number, what: string) => void,
): number => {
  const end = bytes.length;
  let at = start;
  let row = 0;
  let now = line;
  while (at < end) {
    const first = bytes[at]!;
    if (first === LF || first === CR) {
      at += first === CR && bytes[at + 1] === LF ? 2 : 1;
      now += 1;
      continue;
    }
    if (first === HASH) {
      while (at < end && bytes[at] !== LF && bytes[at] !== CR) at++;
      continue;
    }
    const begun = now;
    let column = 0;
    let hasContent = false;
    for (;;) {
      let from = at;
      let to: number;
      let isQuoted = false;
      if (bytes[at] === QUOTE) {
        isQuoted = true;
        from = ++at;
        for (; at < end; at++) {
          const code = bytes[at]!;
          if (code === QUOTE) {
            if (bytes[at + 1] !== QUOTE) break;
            at++;
          } else if (code === LF || (code === CR && bytes[at + 1] !== LF)) now += 1;
        }
        to = at;
        // whatever stands between the closing mark and the separator is no part of the cell
        while (at < end && bytes[at] !== separator && bytes[at] !== LF && bytes[at] !== CR) at++;
      } else {
        let code = 0;
        while (at < end && (code = bytes[at]!) !== separator && code !== LF && code !== CR) at++;
        to = at;
      }
      if (to > from) {
        hasContent = true;
        const builder = builders[column];
        if (builder === undefined) refuse(begun, column + 1, 'the row has more cells than the heading');
        else if (builder !== null) {
          const wrong = builder.put(row, from, to, isQuoted);
          if (wrong !== null) refuse(begun, column + 1, wrong);
        }
      }
      if (at >= end || bytes[at] !== separator) break;
      at++;
      column++;
      if (at >= end) break;
    }
    if (at < end) {
      at += bytes[at] === CR && bytes[at + 1] === LF ? 2 : 1;
      now += 1;
    }
    if (hasContent) row += 1;
  }
  return row;
};
