import type { DepthSolution, Finding } from '@firnbook/science/depth';
import type { InputField } from './depth-files/read-depth-files.ts';
import { fixed, writeTable } from './write-table.ts';

export const depthsHeader = [
  'run',
  'piece',
  'top_m',
  'top_sd_m',
  'top_min_m',
  'top_max_m',
  'bottom_m',
  'bottom_sd_m',
  'bottom_min_m',
  'bottom_max_m',
] as const;

export const findingsHeader = ['what', 'which', 'field', 'size_m', 'likely', 'probability'] as const;

/** Tenths of a millimetre: finer than any reading, so that nothing is lost by writing it down. */
const decimals = 4;

/**
 * Solved depths of every piece as CSV, metres.
 *
 * @param names run and piece as people wrote them, in the order of `solution.pieces`
 */
export const writeDepths = (
  solution: Pick<DepthSolution, 'pieces'>,
  names: readonly { readonly run: string; readonly piece: string }[],
): string =>
  writeTable(
    depthsHeader,
    solution.pieces.map(({ top, bottom }, i) => [
      names[i]!.run,
      names[i]!.piece,
      ...[top, bottom].flatMap(({ value, sd, min, max }) =>
        [value, sd, min, max].map((number) => fixed(number, decimals)),
      ),
    ]),
  );

/** What the findings file calls the readings: names as written, headers of the input's columns. */
export interface FindingNames {
  readonly which: (finding: Finding) => string;
  readonly field: (field: InputField) => string;
}

/** Findings as CSV; the header alone where there are none. */
export const writeFindings = (findings: readonly Finding[], names: FindingNames): string =>
  writeTable(
    findingsHeader,
    findings.map((finding) => [
      finding.what,
      names.which(finding),
      names.field(finding.field),
      fixed(finding.size, decimals),
      finding.likely,
      fixed(finding.probability, 3),
    ]),
  );
