import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const childScript = fileURLToPath(new URL('./child.suite.ts', import.meta.url));

/** Arguments for Node to run a source file as it is. */
const asSource = ['--import', 'tsx', '--conditions=source'];

export interface ServerProcess {
  /** Rejects with what it wrote to stderr when it ends before it listens. */
  readonly address: Promise<string>;
  /** Ends it at once; again is no trouble. */
  kill(): Promise<void>;
}

/** Starts a real server process; `preload` stands among Node's own arguments. */
export function startProcess(dataFolder: string, preload: readonly string[] = []): ServerProcess {
  const args = [...asSource, ...preload, childScript, dataFolder, dataFolder];
  const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  child.stderr.on('data', (chunk) => {
    said += String(chunk);
  });
  const ended = new Promise<void>((resolve) => child.once('close', () => resolve()));
  const address = new Promise<string>((resolve, reject) => {
    child.stdout.on('data', (chunk) => resolve(String(chunk).trim()));
    void ended.then(() => reject(new Error(`the server ended: ${said}`)));
  });
  // Those who kill it during start-up don't wait for the address.
  address.catch(() => undefined);
  const kill = async (): Promise<void> => {
    if (child.exitCode === null && child.signalCode === null) child.kill('SIGKILL');
    await ended;
  };
  return { address, kill };
}
