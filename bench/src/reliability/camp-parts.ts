/** The parts of the harness that need no browser, in full: RELIABILITY's D1 to D11, S1, S2 and S5. */
import { fileURLToPath } from 'node:url';
import { backUpUnderLoad, drillRestore } from './backups.ts';
import { damageJournal, timeStartCheck } from './bit-flips.ts';
import { fillTheDisk } from './disk-full.ts';
import { canMount, cutExt4 } from './ext4.ts';
import { hasTracer, traceAnswers } from './flush-order.ts';
import { sweepErrors } from './io-errors.ts';
import { killInRounds } from './kill-rounds.ts';
import { runLong } from './long-run.ts';
import { comeBackFromOldBackup } from './old-backup.ts';
import type { Part } from './part.ts';
import { cutThePower } from './power-cut.ts';
import { tryRealParts } from './real-parts.ts';
import { answersFirst, answersLate } from './server-process.ts';
import { inShares } from './shares.ts';
import { killMutants, simulate } from './simulation.ts';
import { killUpgrades } from './upgrade-kills.ts';

/** The camp computer's own control: synchronous=NORMAL behind the back of the check. */
export const noFlush = fileURLToPath(
  new URL('../../../apps/server/src/controls/no-flush.mjs', import.meta.url),
);
export const control = (name: string): string =>
  fileURLToPath(new URL(`./controls/${name}.mjs`, import.meta.url));

const needsTracer = (): string | null => (hasTracer() ? null : 'the program strace is not installed');
const needsDisks = (): string | null =>
  canMount() ? null : 'no image of a disk can be mounted (needs Linux, root and loop devices)';

/** The same plan so many times, each under a seed of its own. */
const seeds = <Plan extends object>(count: number, plan: Plan) =>
  Array.from({ length: count }, (_, index) => ({ ...plan, seed: index + 1 }));

export const campParts: readonly Part[] = [
  {
    id: 'D1',
    what: 'kill -9 of the server',
    run: async (tell) => {
      const kills = await inShares('kills', seeds(4, { rounds: 50, perRound: 125 }));
      const isWhole = kills.lost + kills.findings === 0;
      tell.figure('kill -9 of the server', kills, isWhole && kills.acknowledged >= 20_000);
      const wrong = await killInRounds({ rounds: 10, seed: 9, perRound: 60, preload: [answersFirst] });
      tell.control('answers before it stores', wrong, wrong.lost > 0);
    },
  },
  {
    id: 'D2',
    what: 'flush before answer',
    lacks: needsTracer,
    run: async (tell) => {
      const order = await traceAnswers(1000);
      tell.figure('flush before answer', order, order.answers === 1000 && order.early === 0);
      const wrong = await traceAnswers(200, [noFlush]);
      tell.control('synchronous=NORMAL', wrong, wrong.early > 0.9 * wrong.answers);
    },
  },
  {
    id: 'D3',
    what: 'power-cut states',
    lacks: needsTracer,
    run: async (tell) => {
      // Batches of several sizes, so that pages and checkpoints fall otherwise each time.
      const recordings = seeds(32, { entries: 400, states: 3300 });
      const cuts = await inShares(
        'power-cut states',
        recordings.map((plan) => ({ ...plan, batch: 1 + (plan.seed % 8) })),
      );
      tell.figure('power-cut states', cuts, cuts.states >= 100_000 && cuts.lost + cuts.corrupt === 0);
      const wrong = cutThePower({ entries: 200, batch: 4, seed: 9, states: 2000, preload: [noFlush] });
      tell.control('synchronous=NORMAL', wrong, wrong.plainLost >= 0.2 * wrong.plain);
    },
  },
  {
    id: 'D4',
    what: 'power cuts on ext4',
    lacks: needsDisks,
    run: async (tell) => {
      const cuts = await inShares('ext4 power cuts', seeds(4, { rounds: 50 }));
      tell.figure('power cuts on ext4', cuts, cuts.lostRounds === 0);
      const wrong = await cutExt4({ rounds: 20, seed: 9, preload: [noFlush] });
      tell.control('synchronous=NORMAL', wrong, wrong.lostRounds >= 5);
    },
  },
  {
    id: 'D5',
    what: 'I/O errors',
    lacks: needsTracer,
    run: async (tell) => {
      const places = [0, 63, 126, 189].map((from) => ({ from, points: 63, seed: 1, states: 200 }));
      const sweep = await inShares('I/O errors', places);
      tell.figure('I/O errors', sweep, sweep.lost === 0 && sweep.statesLost === 0);
      const wrong = sweepErrors({ points: 30, seed: 2, states: 20, preload: [control('swallow-errors')] });
      tell.control('swallows the error', wrong, wrong.lost + wrong.statesLost > 0);
    },
  },
  {
    id: 'D6',
    what: 'full disk',
    lacks: needsDisks,
    run: async (tell) => {
      for (const on of ['tmpfs', 'ext4'] as const) {
        const full = await fillTheDisk({ fills: 30, seed: 1, on });
        const wrong = full.lost + full.otherAnswers + full.unread + full.stuck + full.coldFailures;
        tell.figure(`full disk, ${on}`, full, wrong === 0 && full.refused > 0 && full.coldStarts > 0);
      }
      const bare = await fillTheDisk({ fills: 6, seed: 2, on: 'tmpfs', withoutReserve: true });
      tell.control('no reserve', bare, bare.coldFailures > 0);
    },
  },
  {
    id: 'D7',
    what: 'damaged files',
    run: async (tell) => {
      const { byStructureAlone, ...flips } = await damageJournal(2000, 1);
      const isFound = flips.detected === flips.changed && flips.named === flips.nameable;
      tell.figure('damaged files', flips, isFound && flips.changed > 800);
      const { changed } = flips;
      tell.control('structure alone', { changed, byStructureAlone }, byStructureAlone < changed / 2);
      const check = await timeStartCheck(150_000);
      tell.figure('check at the start', check, check.ms <= 5000);
    },
  },
  {
    id: 'D8',
    what: 'backups under load',
    run: async (tell) => {
      const ours = await backUpUnderLoad(100, 'ours');
      tell.figure('backups under load', ours, ours.complete === ours.backups);
      const copied = await backUpUnderLoad(10, 'copied');
      tell.control('the file copied', copied, copied.complete < copied.backups);
      const { isDamageRefused, ...drill } = await drillRestore(150_000);
      tell.figure('restore, timed', drill, drill.isSame && drill.seconds <= 60);
      tell.control('one bit on the stick', { isDamageRefused }, isDamageRefused);
    },
  },
  {
    id: 'D9',
    what: 'old backup, then tablets',
    run: async (tell) => {
      const back = await comeBackFromOldBackup('all');
      const isTried = back.restored < back.before && back.ofTheLost > 0;
      tell.figure('old backup, then tablets', back, isTried && back.lost === 0 && back.isSame);
      const wrong = await comeBackFromOldBackup('own');
      tell.control('bring only their own', wrong, wrong.lost > 0);
    },
  },
  {
    id: 'D10',
    what: 'upgrades killed',
    lacks: needsTracer,
    run: async (tell) => {
      const upgrades = killUpgrades({ stride: 1 });
      tell.figure('upgrades killed', upgrades, upgrades.between + upgrades.lost === 0 && upgrades.kills > 40);
      const wrong = killUpgrades({ stride: 3, preload: [control('upgrade-in-pieces')] });
      tell.control('upgrade in pieces', wrong, wrong.between > 0);
    },
  },
  {
    id: 'S1',
    what: 'simulated schedules',
    run: async (tell) => {
      const survey = await simulate(0, 100_000);
      const isWide = survey.rarest >= 0.05 && survey.exchanges <= 30;
      // How many there are in a second says more of the computer than of the record: the bench S1 has its target.
      tell.figure('simulated schedules', survey, survey.violations === 0 && isWide);
      const mutated = await killMutants(20_000);
      tell.control('mutants (S2)', mutated, mutated.mutants >= 15 && mutated.killed === mutated.mutants);
    },
  },
  {
    id: 'S5',
    what: 'real parts',
    run: async (tell) => {
      const parts = await inShares('real parts', seeds(4, { runs: 500 }));
      const isTried = parts.cuts > 1000 && parts.replays > 1000;
      tell.figure('real parts', parts, parts.violations === 0 && isTried);
      const wrong = await tryRealParts({ runs: 40, seed: 9, preload: [answersLate] });
      tell.control('answers late', wrong, wrong.violations > 0);
    },
  },
  {
    id: 'D11',
    what: 'long run',
    run: async (tell, minutes) => {
      const camp = { clients: 10, rest: 200, entryEvery: 20 };
      const long = await runLong({ ...camp, minutes, killEvery: 30 });
      const isSmall = long.memoryGrowth < 1.1 && long.logMegabytes < 64;
      tell.figure('long run', long, long.lost === 0 && isSmall);
      const wrong = await runLong({ ...camp, minutes: 1, killEvery: 10, preload: [answersFirst] });
      tell.control('answers before it stores', wrong, wrong.lost > 0);
    },
  },
];
