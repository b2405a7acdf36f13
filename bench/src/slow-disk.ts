/**
 * A process whose every flush takes longer, as on an old stick or a tired disk: strace holds each fdatasync and fsync
 * at its return. With seccomp, so that no other call is stopped and the process is as quick as before.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

const server = fileURLToPath(new URL('../../apps/server/src/child.suite.ts', import.meta.url));
const bare = fileURLToPath(new URL('./bare-commits.ts', import.meta.url));
const node = ['--import', 'tsx', '--conditions=source'];

/** How the disk was slowed, for the line that a benchmark prints. */
export const slowedBy = (flush: number): string =>
  flush === 0 ? 'not slowed' : `strace holds each fdatasync and fsync ${flush} ms at its return`;

export interface Slowed {
  readonly address: string;
  stop(): Promise<void>;
}

/** The camp computer's server in a process of its own. @param flush ms added to each flush; 0 for none */
export async function slowServer(dataFolder: string, flush: number): Promise<Slowed> {
  const child = start([server, dataFolder, dataFolder], flush);
  const ended = once(child, 'close');
  const address = await Promise.race([
    once(createInterface({ input: child.stdout! }), 'line').then(([line]) => String(line).trim()),
    ended.then(() => {
      throw new Error('The server ended before it listened.');
    }),
  ]);
  const { pid } = JSON.parse(readFileSync(join(dataFolder, 'server.json'), 'utf8')) as { pid: number };
  return {
    address,
    async stop() {
      // The server itself, not what traces it: that ends when the server is gone.
      process.kill(pid, 'SIGTERM');
      await ended;
    },
  };
}

/** What one commit takes, and what the last of so many callers waits where each has a commit of its own. ms */
export interface BareCommits {
  readonly commit: number;
  readonly lastOf: number;
}

export async function bareCommits(folder: string, callers: number, flush: number): Promise<BareCommits> {
  const child = start([bare, folder, String(callers)], flush);
  let said = '';
  child.stdout!.on('data', (chunk) => {
    said += String(chunk);
  });
  const [code] = await once(child, 'close');
  if (code !== 0) throw new Error(`The bare commits ended with ${code}.`);
  const measured = JSON.parse(said) as BareCommits;
  if (measured.commit < flush)
    throw new Error(`A commit takes ${measured.commit} ms: the disk is not slowed.`);
  return measured;
}

function start(script: readonly string[], flush: number): ChildProcess {
  const own = [process.execPath, ...node, ...script];
  const delay = `inject=fdatasync,fsync:delay_exit=${flush * 1000}`;
  const traced = [
    '-f',
    '-qq',
    '--seccomp-bpf',
    '-o',
    '/dev/null',
    '-e',
    'trace=fdatasync,fsync',
    '-e',
    delay,
  ];
  const [command = '', ...args] = flush === 0 ? own : ['strace', ...traced, ...own];
  return spawn(command, args, { stdio: ['ignore', 'pipe', 'inherit'] });
}
