import type { Job } from './model.ts';
import { emptyTilted, logMass, tiltTwin } from './one-sided.ts';
import { slipsOf } from './slips.ts';
import type { Snooped } from './snooping.ts';
import type { Finding, Slip } from './solution.ts';

/**
 * What contradicts itself without the adjustment: runs under a wrong number, one length among several of a piece,
 * catcher marks of a run that cannot have made them.
 */
export const remarks = (snooped: Snooped): Finding[] => {
  const { job } = snooped;
  const { o, rows } = job;
  const out: Finding[] = [];
  for (const wrong of o.wrongNumbers)
    out.push({
      what: 'run',
      which: wrong.run,
      field: 'number',
      size: wrong.size,
      likely: 'run attributed wrongly',
      probability: wrong.probability,
      detectable: wrong.detectable,
      suggestedRun: wrong.other,
    });
  for (const { piece, reading, others } of job.lengths.outliers)
    out.push(oddLength(job, piece, reading, others, 1 - UNLIKELY));
  out.push(...ofTwins(snooped));
  for (const piece of rows.stray)
    out.push({
      what: 'piece',
      which: o.pieces[piece].id,
      field: 'run',
      size: 0,
      likely: 'run attributed wrongly',
      // one of two is wrong, the piece's run or the run that the mark is put down to, and either is as likely
      probability: 0.5,
      detectable: 0,
      suggestedRun: o.pieces[piece].catcherMark?.byRun as string,
    });
  return out;
};

/** More readings agree with each other, and this one is far from all of them. */
const UNLIKELY = 1e-3;

const oddLength = (job: Job, piece: number, reading: number, right: number, probability: number): Finding => {
  const size = reading - right;
  const sd = Math.sqrt(job.lengths.variance[piece]);
  const [best] = slipsOf(reading, 3, 0.005)
    .filter((slip) => Math.abs(slip.size - size) < NEAR * sd)
    .sort((a, b) => Math.abs(a.size - size) - Math.abs(b.size - size));
  const likely: Slip = best?.slip ?? 'no known slip';
  return {
    what: 'piece',
    which: job.o.pieces[piece].id,
    field: 'length',
    size,
    likely,
    probability,
    detectable: DETECTABLE * Math.SQRT2 * sd,
    suggested: Number(right.toFixed(4)),
  };
};
const NEAR = 4;
const DETECTABLE = 2.8016;

const tilted = emptyTilted();

/** Of two lengths that contradict each other the one that all else makes improbable. */
const ofTwins = ({ job, adjusted }: Snooped): Finding[] => {
  const { net } = adjusted.chain;
  const { sites } = net;
  const { value, second, reduction } = job.lengths;
  const out: Finding[] = [];
  for (let i = 0; i < net.pieces; i++) {
    const site = net.partSite[2 * i + 1];
    if (site < 0 || !(sites.twin[site] > 0) || !(sites.seenVariance[site] < Number.POSITIVE_INFINITY))
      continue;
    const mass = (at: number): number => {
      tiltTwin(sites.seen[site], sites.seenVariance[site], at, at, sites.twin[site], tilted);
      return logMass(tilted);
    };
    const odds = Math.exp(mass(second[i]) - mass(value[i]));
    const isFirst = odds < 1;
    const right = (isFirst ? value[i] : second[i]) / reduction[i];
    const wrong = (isFirst ? second[i] : value[i]) / reduction[i];
    out.push(oddLength(job, i, Number(wrong.toFixed(6)), right, 1 / (1 + Math.min(odds, 1 / odds))));
  }
  return out;
};
