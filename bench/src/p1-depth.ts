/**
 * P1: depths of one hole of about 3,300 m solved from scratch, and how the time grows from 100 to 100,000 pieces.
 * Peer: SciPy (Debian's python3-scipy) on the same readings in the same run, see p1_peer.py for what it does.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type DepthReadings, solveDepths } from '@firnbook/science/depth';
import { seeded } from '@firnbook/science/random';
import { simulateSeason, usualPlan } from '@firnbook/science/simulate-season';

const PYTHON = '/usr/bin/python3';
const TARGET_MS = 50;
const REPEATS = 7;

const hole = (runs: number, seed: number): DepthReadings =>
  simulateSeason(seeded(seed), {
    ...usualPlan,
    runs,
    soundings: Math.max(2, Math.round(runs / 400)),
    runFrom: 0.75,
    runTo: 1,
    mostPieces: 5,
    missedShare: 0,
  }).readings;

const median = (values: number[]): number =>
  [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;

const time = (readings: DepthReadings, repeats: number): number => {
  const times: number[] = [];
  for (let i = 0; i < repeats; i++) {
    const start = performance.now();
    solveDepths(readings);
    times.push(performance.now() - start);
  }
  return median(times);
};

/** The peer makes as many sweeps as the solver did, whole ones; so often that its median means something. */
const PEER_REPEATS = 3;

const peer = (readings: DepthReadings, sweeps: number) => {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-p1-'));
  try {
    const file = join(folder, 'readings.json');
    writeFileSync(file, JSON.stringify(readings));
    const environment = { ...process.env };
    delete environment.OPENBLAS_CORETYPE;
    delete environment.OPENBLAS_L2_SIZE;
    const script = new URL('./p1_peer.py', import.meta.url).pathname;
    const ran = spawnSync(PYTHON, [script, file, String(sweeps), String(PEER_REPEATS)], {
      encoding: 'utf8',
      env: environment,
    });
    if (ran.error !== undefined) return { missing: `no ${PYTHON}` };
    if (ran.status !== 0) return { missing: ran.stderr.trim().split('\n').at(-1) ?? 'the peer failed' };
    const timed = JSON.parse(ran.stdout) as { reduced_ms: number; whole_ms: number; hole: number[] };
    return timed;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

/** Root mean square of two lists' differences. */
const apart = (a: readonly number[], b: readonly number[]): number =>
  Math.sqrt(a.reduce((sum, value, i) => sum + (value - (b[i] as number)) ** 2, 0) / a.length);

const round = (value: number, digits = 2): number => Number(value.toFixed(digits));

const deep = hole(3800, 12);
for (let i = 0; i < 4; i++) solveDepths(deep);
const figure = time(deep, REPEATS);
const solved = solveDepths(deep);

// growth: least-squares slope of log time on log pieces
const sizes = [42, 126, 420, 1260, 4200, 12600, 42000].map((runs) => {
  const readings = hole(runs, 31);
  return { pieces: readings.pieces.length, ms: time(readings, runs > 10_000 ? 3 : 5) };
});
const sum = (values: number[]): number => values.reduce((a, b) => a + b, 0);
const logs = sizes.map((one) => ({ x: Math.log(one.pieces), y: Math.log(one.ms) }));
const mx = sum(logs.map((one) => one.x)) / logs.length;
const my = sum(logs.map((one) => one.y)) / logs.length;
const exponent = sum(logs.map(({ x, y }) => (x - mx) * (y - my))) / sum(logs.map(({ x }) => (x - mx) ** 2));

const other = peer(deep, solved.sweeps);
console.log(
  JSON.stringify({
    id: 'P1',
    work: 'depths of one hole from scratch, findings included',
    runs: deep.runs.length,
    pieces: deep.pieces.length,
    ms: round(figure),
    target_ms: TARGET_MS,
    sweeps: solved.sweeps,
    findings: solved.findings.length,
    growth: sizes.map((one) => ({ pieces: one.pieces, ms: round(one.ms) })),
    exponent: round(exponent, 3),
    target_exponent: 1.1,
    ...('missing' in other
      ? { peer: null, reason: other.missing }
      : {
          peer: 'SciPy sparse LU, same run, same model with every piece and offset an unknown, same number of sweeps (all whole; some of the solver hold the globals), median of 3; without variances, findings, bounds',
          peer_hole_apart_m: round(
            apart(
              solved.runs.map((run) => run.holeBottom.value),
              other.hole,
            ),
            3,
          ),
          mean_sd_m: round(sum(solved.runs.map((run) => run.holeBottom.sd)) / solved.runs.length, 3),
          peer_ms: round(other.whole_ms),
          ratio: round(other.whole_ms / figure),
          peer_reduced: "the same after reduction by hand to the solver's three unknowns a run",
          peer_reduced_ms: round(other.reduced_ms),
          ratio_reduced: round(other.reduced_ms / figure),
        }),
  }),
);
