import { assemble } from './assemble.ts';
import { type BorderSolution, solveBorder } from './border.ts';
import { type Chain, gaugeChain } from './chain.ts';
import { backward, forward } from './eliminate.ts';

/** Longest step of the log of a mean in one pass. */
const LONGEST = 1;

/**
 * One pass: linearise at the present estimate, solve, take marginals. The sites are as they are.
 *
 * @param held the globals stay where they are: a pass at a quarter of the work, for sites that still settle;
 *   `cov` and `cross` are right afterwards, `pull` and `factor` are those of the last whole pass
 * @returns false, with the estimate as it was, where the sites together are no normal distribution
 */
export const solveChain = (chain: Chain, held = false): boolean => {
  assemble(chain, held);
  forward(chain, held);
  if (held) {
    backward(chain);
    gaugeChain(chain);
    return true;
  }
  const change: BorderSolution = solveBorder(chain.border, chain.borderRight, chain.factor);
  if (!change.sound) return false;
  // far out Newton's step for the log of a mean overshoots by orders of magnitude
  for (const level of chain.net.unknowns.levels)
    change.move[level] = Math.max(-LONGEST, Math.min(LONGEST, change.move[level]));
  backward(chain, change.move);
  for (let i = 0; i < chain.net.globals; i++) chain.global[i] += change.move[i];
  gaugeChain(chain);
  return true;
};
