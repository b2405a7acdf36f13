/** The camp computer's server in a process of its own, that a test kills as a power cut would. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { childCommand } from './child-command.ts';

/** The control of many of these tests: a server that answers first and stores a moment later. */
export const answersFirst = fileURLToPath(
  new URL('../../../apps/server/src/controls/answer-first.mjs', import.meta.url),
);

/** The same, a minute later: where a proxy or a browser stands between the answer and the tick. */
export const answersLate = fileURLToPath(new URL('./controls/answers-late.mjs', import.meta.url));

export interface ServerProcess {
  /** Resolves when it has ended and all that it said has come. */
  readonly ended: Promise<unknown>;
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

/**
 * @param preload modules that make the server a wrong one
 * @param tracer a command that stands in front of it and watches it
 */
export function startServerProcess(
  dataFolder: string,
  preload: readonly string[] = [],
  webFolder: string = dataFolder,
  tracer: readonly string[] = [],
): ServerProcess {
  const [command = '', ...args] = [...tracer, ...childCommand('serve', preload), dataFolder, webFolder];
  const isTraced = tracer.length > 0;
  const made = spawn(command, args, { stdio: ['ignore', 'pipe', 'pipe'], detached: isTraced });
  let said = '';
  made.stderr.on('data', (chunk) => {
    said += String(chunk);
  });
  const ended = once(made, 'close');
  const address = new Promise<string>((resolve, reject) => {
    createInterface({ input: made.stdout }).on('line', (line) => {
      const found = /^ready (http:\S+)/.exec(line)?.[1];
      if (found !== undefined) resolve(found);
    });
    void ended.then(() => reject(new Error(`the server ended: ${said}`)));
  });
  // Those who kill it during start-up do not wait for the address.
  address.catch(() => undefined);
  return {
    address,
    ended,
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
      if (made.exitCode === null && made.signalCode === null && made.pid !== undefined) {
        // A tracer that is killed alone lets its server run on: the whole group goes.
        process.kill(isTraced ? -made.pid : made.pid, 'SIGKILL');
      }
      await ended;
    },
  };
}
