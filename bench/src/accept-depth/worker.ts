/** Judges the seasons whose seeds it is given, both ways, and posts each as it is done. */
import { parentPort, workerData } from 'node:worker_threads';
import { judgeSeason, type Outcome } from './judge-season.ts';

export interface SeasonOutcome {
  readonly seed: number;
  readonly sounded: Outcome;
  readonly unsounded: Outcome;
}

for (const seed of workerData as readonly number[]) {
  const outcome: SeasonOutcome = {
    seed,
    sounded: judgeSeason(seed, 'sounded'),
    unsounded: judgeSeason(seed, 'unsounded'),
  };
  parentPort?.postMessage(outcome);
}
