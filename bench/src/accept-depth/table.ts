import type { Goal } from './goals.ts';
import type { SlipLine, Tally } from './tally.ts';

/** Columns as wide as their widest cell; the first to the left, the others to the right. */
const aligned = (rows: readonly (readonly string[])[]): string => {
  const widths = rows[0].map((_, column) => Math.max(...rows.map((row) => [...row[column]].length)));
  return rows
    .map((row) =>
      row
        .map((cell, column) => {
          const blank = ' '.repeat(widths[column] - [...cell].length);
          return column === 0 ? cell + blank : blank + cell;
        })
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
};

export const goalTable = (goals: readonly Goal[]): string =>
  aligned([
    ['', 'figure', 'goal', ''],
    ...goals.map(({ what, figure, goal, isMet }) => [what, figure, goal, isMet ? 'pass' : 'FAIL']),
  ]);

export const slipTable = (lines: readonly SlipLine[]): string =>
  aligned([
    ['slip', 'size', 'made', 'found', 'exact reading', 'revealable', 'of these found'],
    ...lines.map((line) => [
      line.kind,
      line.size,
      `${line.made}`,
      `${line.found}`,
      `${line.named}`,
      `${line.revealable}`,
      `${line.revealableFound}`,
    ]),
  ]);

export const remarks = ({ rms, flags, notSettled, seasons }: Tally): string =>
  [
    `median rms error with slips made: ${(100 * rms.slipped).toFixed(2)} cm`,
    `flags at breaks whose word was wrong and where 2 cm or more are lost: ${flags.wrongWords.toFixed(2)} in 200 readings`,
    `solutions that did not settle: ${notSettled} of ${2 * seasons}`,
  ].join('\n');
