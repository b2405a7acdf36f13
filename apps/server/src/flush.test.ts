import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { newCampaign, post, runLogged, sync, tablet } from './crew.suite.ts';
import { inFolder } from './folders.suite.ts';
import { startProcess } from './process.suite.ts';

const rounds = 300;
const tracer = 'strace';
const traced = spawnSync(tracer, ['-V']).status === 0;

interface Order {
  /** Answers "200" that went out. */
  answers: number;
  /** Of those: with bytes in the write-ahead log that were not flushed, or with nothing written at all before. */
  early: number;
}

/**
 * Reads a trace of the server's main thread. An acknowledgement is in order when the log was written since the
 * answer before, and flushed after the last of these writes.
 */
function orderIn(trace: string, pid: number): Order {
  const order = { answers: 0, early: 0 };
  let state: 'nothing' | 'written' | 'flushed' = 'nothing';
  for (const line of trace.split('\n')) {
    if (!line.startsWith(`${pid} `)) continue;
    if (/ pwrite(64|v2?)?\(\d+<[^>]*-wal>/.test(line)) state = 'written';
    else if (/ f(data)?sync\(\d+<[^>]*-wal>/.test(line) && state === 'written') state = 'flushed';
    else if (/ (write|writev|sendto|sendmsg)\(\d+<[^/].*HTTP\/1\.1 200 /.test(line)) {
      order.answers += 1;
      if (state !== 'flushed') order.early += 1;
      state = 'nothing';
    }
  }
  return order;
}

async function traceServer(folder: string, preload: readonly string[]): Promise<Order> {
  const trace = join(folder, 'trace');
  const calls = 'trace=pwrite64,pwritev,pwritev2,fsync,fdatasync,write,writev,sendto,sendmsg';
  const strace = [tracer, '-f', '-y', '-s', '32', '-e', calls, '-e', 'signal=none', '-o', trace];
  const data = join(folder, 'data');
  const server = startProcess(data, strace, preload);
  let pid: number;
  let before: number;
  try {
    const address = await server.address;
    const device = await tablet(newCampaign());
    await device.write([runLogged(0)]);
    await sync(device, address);
    pid = JSON.parse(readFileSync(join(data, 'server.json'), 'utf8')).pid as number;
    before = readFileSync(trace, 'utf8').length;
    // Every answer from here on acknowledges an entry.
    for (let round = 1; round <= rounds; round += 1) {
      await device.write([runLogged(round)]);
      await device.hear('camp', await post(device.ask('camp'), address));
    }
    // The tracer ends with its server and writes down the last lines.
    process.kill(pid, 'SIGKILL');
    await server.ended;
  } finally {
    await server.kill();
  }
  return orderIn(readFileSync(trace, 'utf8').slice(before), pid);
}

describe.skipIf(!traced)('flush before answer, seen by strace (skipped without the program strace)', () => {
  it('J4: every answer that acknowledges comes after the flush of what it acknowledges', () =>
    inFolder(async (folder) => {
      const order = await traceServer(folder, []);
      expect(order).toEqual({ answers: rounds, early: 0 });
    }));

  it('J4 control: with synchronous=NORMAL the same test sees answers before the flush', () =>
    inFolder(async (folder) => {
      const wrong = fileURLToPath(new URL('./controls/no-flush.mjs', import.meta.url));
      const order = await traceServer(folder, ['--import', wrong]);
      expect(order.answers).toBe(rounds);
      expect(order.early).toBeGreaterThan(rounds * 0.9);
    }));
});
