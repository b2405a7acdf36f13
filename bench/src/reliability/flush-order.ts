/**
 * D2: the real server under strace, answer by answer. Every answer that acknowledges an entry has to come after the
 * flush of the write-ahead log that holds it; that it is there after a kill says nothing about a power cut.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { memoryTablet, newCampaign, post, runLogged, sync } from './crew.ts';
import { startServerProcess } from './server-process.ts';

export interface FlushOrder {
  /** Answers "200" that went out. */
  readonly answers: number;
  /** Of those: with bytes in the write-ahead log that were not flushed, or with nothing written at all before. */
  readonly early: number;
}

export const hasTracer = (): boolean => spawnSync('strace', ['-V']).status === 0;

export async function traceAnswers(answers: number, preload: readonly string[] = []): Promise<FlushOrder> {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-order-'));
  const trace = join(folder, 'trace');
  const calls = 'trace=pwrite64,pwritev,pwritev2,fsync,fdatasync,write,writev,sendto,sendmsg';
  const tracer = ['strace', '-f', '-y', '-s', '32', '-e', calls, '-e', 'signal=none', '-o', trace];
  const data = join(folder, 'data');
  const server = startServerProcess(data, preload, data, tracer);
  try {
    const address = await server.address;
    const device = await memoryTablet(newCampaign());
    await device.write([runLogged(0)]);
    await sync(device, address);
    const { pid } = JSON.parse(readFileSync(join(data, 'server.json'), 'utf8')) as { pid: number };
    const before = readFileSync(trace, 'utf8').length;
    // Every answer from here on acknowledges an entry.
    for (let round = 1; round <= answers; round += 1) {
      await device.write([runLogged(round)]);
      await device.hear('camp', await post(device.ask('camp'), address));
    }
    // The tracer ends with its server and writes down the last lines.
    process.kill(pid, 'SIGKILL');
    await server.ended;
    return orderIn(readFileSync(trace, 'utf8').slice(before), pid);
  } finally {
    await server.kill();
    rmSync(folder, { recursive: true, force: true });
  }
}

/**
 * Reads a trace of the server's main thread. An acknowledgement is in order when the log was written since the
 * answer before, and flushed after the last of these writes.
 */
function orderIn(trace: string, pid: number): FlushOrder {
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
