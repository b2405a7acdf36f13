import { canonical, hashText } from '@firnbook/journal';
import type { DepthReadings, DepthSolution } from '@firnbook/science/depth';
import type { DepthVersion } from '@firnbook/science/depth-scales';

/**
 * A state of a hole's solved depths to be kept under a name, with all that it was made of.
 *
 * @param hole its name
 * @param readings what the solution was made of
 * @param entries the entries that say so; none for readings that came from files
 */
export const depthVersion = (
  name: string,
  hole: string,
  readings: DepthReadings,
  solution: DepthSolution,
  entries: readonly string[],
): DepthVersion => ({
  name,
  hole,
  solver: solution.solver,
  assumptions: solution.assumptions,
  readings,
  entries,
  digest: digestOf(readings),
  runs: solution.runs,
  pieces: solution.pieces,
});

/** SHA-256 of the readings as canonical text (RFC 8785): two versions of one digest were solved from the same readings. */
const digestOf = (readings: DepthReadings): string => hashText(canonical(readings));

/** Whether a version still holds the readings that it says it was solved from. */
export const isWhole = (version: DepthVersion): boolean => digestOf(version.readings) === version.digest;
