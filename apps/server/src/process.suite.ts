import { type ChildProcess, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const childScript = fileURLToPath(new URL('./child.suite.ts', import.meta.url));

/** Arguments for Node to run a source file as it is. */
const asSource = ['--import', 'tsx', '--conditions=source'];

export interface ServerProcess {
  readonly child: ChildProcess;
  /** Rejects with what it wrote to stderr when it ends before it listens. */
  readonly address: Promise<string>;
  readonly ended: Promise<void>;
  /** Ends it at once, together with what stands in front of it; again is no trouble. */
  kill(): Promise<void>;
}

/** Starts a real server process; `command` and `before` stand in front of Node's own arguments. */
export function startProcess(
  dataFolder: string,
  before: readonly string[] = [],
  preload: readonly string[] = [],
): ServerProcess {
  const [command = '', ...rest] = [
    ...before,
    process.execPath,
    ...asSource,
    ...preload,
    childScript,
    dataFolder,
    dataFolder,
  ];
  const child = spawn(command, rest, { stdio: ['ignore', 'pipe', 'pipe'], detached: before.length > 0 });
  let said = '';
  child.stderr?.on('data', (chunk) => {
    said += String(chunk);
  });
  const ended = new Promise<void>((resolve) => child.once('close', () => resolve()));
  const address = new Promise<string>((resolve, reject) => {
    child.stdout?.on('data', (chunk) => resolve(String(chunk).trim()));
    void ended.then(() => reject(new Error(`the server ended: ${said}`)));
  });
  // Those who kill it during start-up don't wait for the address.
  address.catch(() => undefined);
  const kill = async (): Promise<void> => {
    if (child.exitCode === null && child.signalCode === null && child.pid !== undefined) {
      // A tracer that is killed alone lets its server run on: the whole group goes.
      process.kill(before.length > 0 ? -child.pid : child.pid, 'SIGKILL');
    }
    await ended;
  };
  return { child, address, ended, kill };
}
