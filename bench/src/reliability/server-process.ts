/** The camp computer's server in a process of its own, that a test kills as a power cut would. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

const child = fileURLToPath(new URL('../../../apps/server/src/child.suite.ts', import.meta.url));

/** The control of many of these tests: a server that answers first and stores a moment later. */
export const answersFirst = fileURLToPath(
  new URL('../../../apps/server/src/controls/answer-first.mjs', import.meta.url),
);

/** The same, a minute later: where a proxy or a browser stands between the answer and the tick. */
export const answersLate = fileURLToPath(new URL('./controls/answers-late.mjs', import.meta.url));

export interface ServerProcess {
  /** Rejects with what it wrote to stderr when it ends before it listens. */
  readonly address: Promise<string>;
  /** What it said to the person who started it, so far. */
  said(): string;
  /** Whether it has ended, by itself or killed. */
  isGone(): boolean;
  /** Memory that it holds in RAM, bytes; 0 where the system does not tell. */
  memory(): number;
  /** SIGKILL: nothing of it runs any more. Again is no trouble. */
  kill(): Promise<void>;
}

/** @param preload modules that make the server a wrong one */
export function startServerProcess(
  dataFolder: string,
  preload: readonly string[] = [],
  webFolder: string = dataFolder,
): ServerProcess {
  const args = ['--import', 'tsx', '--conditions=source'];
  const wrong = preload.flatMap((module) => ['--import', module]);
  const made = spawn(process.execPath, [...args, ...wrong, child, dataFolder, webFolder], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  made.stderr.on('data', (chunk) => {
    said += String(chunk);
  });
  const ended = once(made, 'close');
  const address = new Promise<string>((resolve, reject) => {
    createInterface({ input: made.stdout }).once('line', (line) => resolve(line.trim()));
    void ended.then(() => reject(new Error(`the server ended: ${said}`)));
  });
  // Those who kill it during start-up do not wait for the address.
  address.catch(() => undefined);
  return {
    address,
    said: () => said,
    isGone: () => made.exitCode !== null || made.signalCode !== null,
    memory: () => {
      try {
        const status = readFileSync(`/proc/${made.pid}/status`, 'utf8');
        return Number(/^VmRSS:\s+(\d+) kB/m.exec(status)?.[1] ?? 0) * 1024;
      } catch {
        return 0;
      }
    },
    kill: async () => {
      if (made.exitCode === null && made.signalCode === null) made.kill('SIGKILL');
      await ended;
    },
  };
}
