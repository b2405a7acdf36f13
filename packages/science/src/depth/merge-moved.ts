import type { Explained } from './explain.ts';
import type { Job } from './model.ts';
import type { Finding } from './solution.ts';

/** A piece that is too much in one run and too little in the next agrees within this, and twice what is detectable. */
const AGREE = 0.05;

/**
 * One run with a piece too much and its neighbour with as much too little are one slip, not two: the piece at the seam
 * belongs to the neighbour.
 *
 * @param findings with the sizes that they have once all of `found` is out of the adjustment
 * @returns undefined where there is no such pair
 */
export const mergeMoved = (
  found: readonly Explained[],
  findings: readonly Finding[],
  job: Job,
): readonly Explained[] | undefined => {
  const { o, lengths: l } = job;
  for (const [x, one] of found.entries()) {
    if (one.piece === undefined) continue;
    for (const [y, two] of found.entries()) {
      if (two.piece === undefined || two.run <= one.run) continue;
      // neighbours: no core between them
      if (o.first[one.run + 1] !== o.first[two.run]) continue;
      const tooMuch = findings[x].size;
      const other = findings[y].size;
      const loose = Math.max(AGREE, 0.5 * Math.max(findings[x].detectable, findings[y].detectable));
      if (tooMuch * other >= 0 || Math.abs(tooMuch + other) > loose) continue;
      const piece = tooMuch > 0 ? o.first[two.run] - 1 : o.first[two.run];
      if (!(Math.abs(l.value[piece] - Math.abs(tooMuch)) < loose)) continue;
      if (job.moved.has(o.pieces[piece].id)) continue;
      const to = o.runs[(tooMuch > 0 ? two.run : one.run) - 1].id;
      const moved: Explained = {
        opening: one.opening,
        run: one.run,
        moved: [o.pieces[piece].id, to],
        finding: {
          what: 'piece',
          which: o.pieces[piece].id,
          field: 'run',
          size: tooMuch > 0 ? -l.value[piece] : l.value[piece],
          likely: 'run attributed wrongly',
          probability: Math.min(one.finding.probability, two.finding.probability),
          detectable: Math.max(findings[x].detectable, findings[y].detectable),
          suggestedRun: to,
        },
      };
      return [...found.filter((each) => each !== one && each !== two), moved];
    }
  }
  return undefined;
};
