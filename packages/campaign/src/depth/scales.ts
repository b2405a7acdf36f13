import type { DepthReadings, DepthSolution } from '@firnbook/science/depth';
import {
  type Converted,
  drillerScale,
  loggerScale,
  type ScaledDepth,
  type ScaleOfHole,
  scaleName,
  solvedScale,
} from '@firnbook/science/depth-scales';
import { type Sentence, sentence, type TextKey } from '../texts/sentence.ts';
import type { NameOf } from './verdict.ts';

/**
 * The scales that every hole has: the driller's, the logger's, the solved one.
 *
 * @param hole its name
 * @param readings what the solution was made of
 */
export const scalesOfHole = (
  hole: string,
  readings: DepthReadings,
  solution: DepthSolution,
  version: string,
): readonly [driller: ScaleOfHole, logger: ScaleOfHole, solved: ScaleOfHole] => [
  drillerScale(hole, readings, solution),
  loggerScale(hole, readings, solution),
  solvedScale(hole, solution, version),
];

const texts: Readonly<Record<Converted['within']['kind'], TextKey>> = {
  ice: 'converted.ice',
  break: 'converted.break',
  'lost ice': 'converted.lost',
  'above the core': 'converted.above',
  'below the core': 'converted.below',
};

/** Where a depth lies on another scale, and in what. */
export function convertedSentence(given: ScaledDepth, converted: Converted, nameOf: NameOf): Sentence {
  const { depth, within, from, to } = converted;
  return sentence(texts[within.kind], {
    from: { depth: given.value },
    scale: scaleName(given.scale),
    to: depth.sd > 0 ? { depth: depth.value, sd: depth.sd } : { depth: depth.value },
    other: scaleName(depth.scale),
    top: { depth: from },
    bottom: { depth: to },
    ...('piece' in within ? { piece: nameOf(within.piece) } : {}),
    ...('above' in within ? { above: nameOf(within.above), below: nameOf(within.below) } : {}),
  });
}
