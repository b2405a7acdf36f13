/** serve.ts DATA-FOLDER WEB-FOLDER: the camp computer's server; says "ready ADDRESS" when it listens. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { readServerInfo, startServer } from '@firnbook/server';

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [dataFolder = '', webFolder = ''] = process.argv.slice(2);
  const start = performance.now();
  const log = (line: string) => process.stderr.write(`${line}\n`);
  const starting = startServer({ dataFolder, webFolder, port: 0, log });
  const [server, page] = await Promise.all([starting, firstPage(dataFolder, start)]);
  await (await fetch(`${server.address}/api/campaigns`)).json();
  const { user, system } = process.cpuUsage();
  process.stdout.write(
    `ready ${server.address} ${performance.now() - start} ${(user + system) / 1000} ${page}\n`,
  );
}

/** ms from the call to the first page of the screens, asked for as soon as somebody listens. */
async function firstPage(dataFolder: string, start: number): Promise<number> {
  for (;;) {
    const info = readServerInfo(dataFolder);
    if (info?.pid === process.pid) {
      await (await fetch(info.address)).text();
      return performance.now() - start;
    }
    await pause(5);
  }
}

export interface Served {
  readonly address: string;
  /** From the call to the first answer, ms; without the time that the process takes to load its code. */
  readonly ms: number;
  /** Processor time of the whole process until then, ms. */
  readonly cpuMs: number;
  /** From the call to the first page of the screens, ms. */
  readonly pageMs: number;
  /** From before the process was there to the first answer, ms. */
  readonly wholeMs: number;
  stop(): Promise<void>;
}

/** A server in a process of its own, as in camp. */
export async function serve(dataFolder: string, webFolder: string): Promise<Served> {
  const start = performance.now();
  const args = ['--import', 'tsx', '--conditions=source', fileURLToPath(import.meta.url)];
  const child: ChildProcess = spawn(process.execPath, [...args, dataFolder, webFolder], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  for await (const line of createInterface({ input: child.stdout! })) {
    const found = /^ready (http:\S+) (\S+) (\S+) (\S+)$/.exec(line);
    if (found === null) continue;
    return {
      address: found[1]!,
      ms: Number(found[2]),
      cpuMs: Number(found[3]),
      pageMs: Number(found[4]),
      wholeMs: performance.now() - start,
      async stop() {
        const gone = once(child, 'exit');
        child.kill('SIGKILL');
        await gone;
      },
    };
  }
  throw new Error('The server ended before it was ready.');
}
