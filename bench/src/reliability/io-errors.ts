import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { campaignPaths, verifyJournal } from '@firnbook/storage/sqlite';
import { campaign, tryStates, writerCommand } from './power-cut.ts';
import { readTrace, traceArguments } from './trace.ts';

export interface ErrorSweep {
  /** Places where a call was made to fail, each in a run of its own. */
  readonly points: number;
  /** Runs that ended with an acknowledged entry gone or with damage. */
  readonly lost: number;
  /** Appends that were refused, and then offered again. */
  readonly refused: number;
  /** Power cuts after the errors, and those of them that lost or damaged something. */
  readonly states: number;
  readonly statesLost: number;
}

export interface ErrorPlan {
  /** The first of the points. */
  readonly from?: number;
  readonly points: number;
  readonly seed: number;
  readonly states: number;
  readonly preload?: readonly string[];
}

const entries = 24;
const batch = 3;
const calls = ['pwrite64', 'fdatasync', 'fsync'] as const;
const kinds = [
  { error: 'EIO', sticky: false },
  { error: 'ENOSPC', sticky: false },
  { error: 'EIO', sticky: true },
] as const;

interface Run {
  readonly refused: number;
  readonly lost: boolean;
  readonly states: number;
  readonly statesLost: number;
}

/**
 * Makes one call on the journal's files fail in every run (the k-th write or flush, once or from then on), lets the
 * writer do what the tool does, and looks whether everything acknowledged is there; then cuts the power at moments of
 * that run too.
 */
export function sweepErrors(plan: ErrorPlan): ErrorSweep {
  const total = { points: 0, lost: 0, refused: 0, states: 0, statesLost: 0 };
  for (let point = plan.from ?? 0; total.points < plan.points; point += 1) {
    const kind = kinds[point % kinds.length]!;
    const call = calls[Math.floor(point / kinds.length) % calls.length]!;
    // a run of 24 entries makes some 60 writes and 20 flushes: spread over them, none twice
    const most = call === 'pwrite64' ? 60 : 18;
    const k = 1 + ((Math.floor(point / (kinds.length * calls.length)) * 7 + point) % most);
    const run = runWith(`inject=${call}:error=${kind.error}:when=${k}${kind.sticky ? '+' : ''}`, plan);
    total.points += 1;
    total.lost += run.lost ? 1 : 0;
    total.refused += run.refused;
    total.states += run.states;
    total.statesLost += run.statesLost;
  }
  return total;
}

function runWith(inject: string, plan: ErrorPlan): Run {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-errors-'));
  try {
    const data = join(folder, 'data');
    const trace = join(folder, 'trace');
    const { journal } = campaignPaths(data, campaign);
    const files = [journal, `${journal}-wal`];
    // the error is for calls on these files alone, not for the file that acknowledgements go to
    const only = [...files, join(data, 'acks')].flatMap((file) => ['-P', file]);
    const done = spawnSync(
      'strace',
      [...traceArguments(trace), ...only, '-e', inject, ...writerCommand(data, { entries, batch, ...plan })],
      { encoding: 'utf8' },
    );
    const said = done.stdout.split('\n');
    const acknowledged = Number(said.findLast((line) => line.startsWith('ack '))?.slice(4) ?? 0);
    const refused = said.filter((line) => line.startsWith('fail ')).length;
    const lost = acknowledged > 0 && !isWhole(journal, acknowledged);
    const operations = readTrace(readFileSync(trace, 'latin1'), (path) => files.includes(path));
    const cuts = tryStates(operations, basename(journal), plan);
    return { refused, lost, states: cuts.states, statesLost: cuts.lost + cuts.corrupt };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function isWhole(journal: string, acknowledged: number): boolean {
  const verdict = verifyJournal(journal);
  return verdict.ok && verdict.entries >= acknowledged;
}
