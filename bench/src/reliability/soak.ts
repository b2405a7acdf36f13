/**
 * `npm run soak`: the reliability harness in full, one table of figures, each with its control.
 *
 * `npm run soak -- 30`: minutes that the long run D11 takes; 30 unless told.
 *
 * How long the parts take, reckoned from small runs on two cores that were busy with other work (ten times as many
 * processes as cores; alone it is a fraction): D1 12 minutes, D7 2, D10 5, D6 1, S5 45, D11 as long as it is told.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { damageJournal, timeStartCheck } from './bit-flips.ts';
import { fillTheDisk } from './disk-full.ts';
import { canMount, cutExt4 } from './ext4.ts';
import { sweepErrors } from './io-errors.ts';
import { killInRounds } from './kill-rounds.ts';
import { runLong } from './long-run.ts';
import { cutThePower, type PowerCuts } from './power-cut.ts';
import { tryRealParts } from './real-parts.ts';
import { answersFirst, answersLate } from './server-process.ts';
import { figureLine } from './table.ts';
import { killUpgrades } from './upgrade-kills.ts';

/** The camp computer's own control: synchronous=NORMAL behind the back of the check. */
const noFlush = fileURLToPath(new URL('../../../apps/server/src/controls/no-flush.mjs', import.meta.url));
const control = (name: string): string => fileURLToPath(new URL(`./controls/${name}.mjs`, import.meta.url));
let failed = 0;

/** Prints one figure and whether it holds. */
const row = (id: string, what: string, figures: object, holds: boolean): void => {
  if (!holds) failed += 1;
  process.stdout.write(`${figureLine(id, what, figures)}  ${holds ? 'holds' : 'FAILS'}\n`);
};

/** Several recordings with batches of several sizes, so that pages and checkpoints fall otherwise each time. */
const manyCuts = (states: number): PowerCuts => {
  const total = { states: 0, lost: 0, corrupt: 0, acknowledged: 0, lostShare: 0 };
  for (let seed = 1; total.states < states; seed += 1) {
    const cuts = cutThePower({ entries: 400, batch: 1 + (seed % 8), seed, states: states - total.states });
    total.states += cuts.states;
    total.lost += cuts.lost;
    total.corrupt += cuts.corrupt;
    total.acknowledged += cuts.acknowledged;
  }
  return total;
};

const isTraced = spawnSync('strace', ['-V']).status === 0;
const minutes = Number(process.argv[2] ?? 30);
if (!(minutes > 0)) throw new Error('npm run soak -- MINUTES: how long the long run takes');
const preload = [answersFirst];

const kills = await killInRounds({ rounds: 200, seed: 1, perRound: 125 });
row('D1', 'kill -9', kills, kills.lost + kills.findings === 0 && kills.acknowledged >= 20_000);
const wrongKills = await killInRounds({ rounds: 10, seed: 2, perRound: 60, preload });
row('D1', 'control: answers first', wrongKills, wrongKills.lost > 0);

const flips = await damageJournal(2000, 1);
const isFound = flips.detected === flips.changed && flips.named === flips.nameable;
row('D7', 'damaged files', flips, isFound && flips.changed > 800);
const { changed, byStructureAlone } = flips;
const structure = { changed, byStructureAlone };
row('D7', 'control: structure only', structure, byStructureAlone < changed / 2);
const check = await timeStartCheck(150_000);
row('D7', 'check at the start', check, check.ms <= 5000);

if (isTraced) {
  const cuts = manyCuts(100_000);
  row('D3', 'power-cut states', cuts, cuts.lost === 0 && cuts.corrupt === 0);
  const wrongCuts = cutThePower({
    entries: 200,
    batch: 4,
    seed: 9,
    states: 2000,
    preload: [noFlush],
  });
  row('D3', 'control: no flush', wrongCuts, wrongCuts.lostShare >= 0.2);
  const sweep = sweepErrors({ points: 250, seed: 1, states: 200 });
  row('D5', 'I/O errors', sweep, sweep.lost === 0 && sweep.statesLost === 0);
  const wrongSweep = sweepErrors({ points: 30, seed: 2, states: 20, preload: [control('swallow-errors')] });
  row('D5', 'control: swallowed', wrongSweep, wrongSweep.lost + wrongSweep.statesLost > 0);
  const upgrades = killUpgrades({ stride: 1 });
  row('D10', 'upgrades killed', upgrades, upgrades.between + upgrades.lost === 0 && upgrades.kills > 40);
  const inPieces = killUpgrades({ stride: 3, preload: [control('upgrade-in-pieces')] });
  row('D10', 'control: in pieces', inPieces, inPieces.between > 0);
} else process.stdout.write('D3, D5, D10: left out for want of the program strace\n');

if (canMount()) {
  const cuts = await cutExt4({ rounds: 200, seed: 1 });
  row('D4', 'ext4 power cuts', cuts, cuts.lostRounds === 0);
  const wrongCuts = await cutExt4({ rounds: 20, seed: 2, preload: [noFlush] });
  row('D4', 'control: no flush', wrongCuts, wrongCuts.lostRounds >= 5);
  for (const on of ['tmpfs', 'ext4'] as const) {
    const full = await fillTheDisk({ fills: 30, seed: 1, on });
    const wrong = full.lost + full.otherAnswers + full.unread + full.stuck + full.coldFailures;
    row('D6', `full disk, ${on}`, full, wrong === 0 && full.refused > 0 && full.coldStarts > 0);
  }
  const bare = await fillTheDisk({ fills: 6, seed: 2, on: 'tmpfs', withoutReserve: true });
  row('D6', 'control: no reserve', bare, bare.coldFailures > 0);
} else process.stdout.write('D4, D6: left out, no image of a disk can be mounted here\n');

const parts = await tryRealParts({ runs: 2000, seed: 1 });
row('S5', 'real parts', parts, parts.violations === 0 && parts.cuts > 1000 && parts.replays > 1000);
const wrongParts = await tryRealParts({ runs: 40, seed: 2, preload: [answersLate] });
row('S5', 'control: answers late', wrongParts, wrongParts.violations > 0);

const camp = { clients: 10, rest: 200, entryEvery: 20 };
const long = await runLong({ ...camp, minutes, killEvery: 30 });
row('D11', 'long run', long, long.lost === 0 && long.memoryGrowth < 1.1 && long.logMegabytes < 64);
const wrongLong = await runLong({ ...camp, minutes: 1, killEvery: 10, preload });
row('D11', 'control: answers first', wrongLong, wrongLong.lost > 0);

process.exitCode = failed === 0 ? 0 : 1;
