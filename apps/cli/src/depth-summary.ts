import { fixed } from '@firnbook/exchange';
import type { DepthSolution, Finding } from '@firnbook/science/depth';

/** Findings told one by one; the rest is in the file. */
const most = 10;

/** What a person wants to know first: how deep, how sure, what doesn't fit, what was taken for granted. */
export const depthSummary = (solution: DepthSolution, which: (finding: Finding) => string): string => {
  const { pieces, runs, findings, learned, assumptions } = solution;
  const core = pieces.at(-1)?.bottom;
  const hole = runs.at(-1)?.holeBottom;
  const metres = ({ value, sd }: { value: number; sd: number }) =>
    `${fixed(value, 3)} m \u00b1 ${fixed(sd, 3)} m`;
  const lines = [
    `${runs.length} runs, ${pieces.length} pieces solved (${solution.solver}).`,
    ...(core === undefined
      ? []
      : [`Bottom of the core: ${metres(core)}, between ${fixed(core.min, 3)} and ${fixed(core.max, 3)} m.`]),
    ...(hole === undefined ? [] : [`Bottom of the hole: ${metres(hole)}.`]),
    `Cable reads ${fixed(100 * learned.cableScale.value, 2)} % \u00b1 ${fixed(100 * learned.cableScale.sd, 2)} % long; chips on the bottom ${fixed(100 * learned.fillMean.value, 1)} cm, stub ${fixed(100 * learned.stubMean.value, 1)} cm on average.`,
    findings.length === 0
      ? 'Every reading fits.'
      : `${findings.length} ${findings.length === 1 ? 'reading does' : 'readings do'} not fit:`,
    ...findings
      .slice(0, most)
      .map(
        (finding) =>
          `  ${finding.what} ${which(finding)}, ${finding.field}: off by ${fixed(finding.size, 3)} m; likely ${finding.likely} (probability ${fixed(finding.probability, 2)})`,
      ),
    ...(findings.length > most ? [`  ... and ${findings.length - most} more`] : []),
    ...(solution.converged
      ? []
      : ['The solution did not settle: treat the depths as rough and look at the findings.']),
    `Assumed: ${Object.entries(assumptions)
      .map(([name, value]) => `${name} ${value}`)
      .join(', ')}.`,
  ];
  return `${lines.join('\n')}\n`;
};
