import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { root, webFolder } from './folders.ts';

/** The camp computer's server as a process of its own, which can be killed as a power cut would. */
export interface CampComputer {
  /** "http://127.0.0.1:41234"; the same after every restart. */
  readonly address: string;
  readonly dataFolder: string;
  /** Resolves when the process is gone. SIGKILL unless told: nothing of it runs any more. */
  kill(signal?: NodeJS.Signals): Promise<void>;
  /** Starts it again on the same port and data folder, if wanted with other screens. */
  restart(screens?: string): Promise<void>;
  /** Entries and digest of a campaign as the server holds it. */
  digest(campaign: string): Promise<{ readonly entries: number; readonly digest: string }>;
  campaigns(): Promise<readonly { readonly id: string; readonly name: string; readonly entries: number }[]>;
}

/** @param media folder under which sticks show up; where this system has them unless given */
export async function startCamp(
  dataFolder: string,
  screens: string = webFolder,
  media?: string,
): Promise<CampComputer> {
  let { child, address } = await run(dataFolder, screens, 0, media);
  const port = Number(new URL(address).port);
  const json = async (path: string) => {
    const answer = await fetch(address + path);
    if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
    return answer.json();
  };
  return {
    address,
    dataFolder,
    async kill(signal = 'SIGKILL') {
      if (child.exitCode !== null || child.signalCode !== null) return;
      const gone = once(child, 'exit');
      child.kill(signal);
      await gone;
    },
    async restart(other = screens) {
      ({ child, address } = await run(dataFolder, other, port, media));
    },
    digest: async (campaign) =>
      (await json(`/api/campaigns/${campaign}/digest`)) as { entries: number; digest: string },
    campaigns: async () => (await json('/api/campaigns')) as { id: string; name: string; entries: number }[],
  };
}

async function run(
  dataFolder: string,
  screens: string,
  port: number,
  media: string | undefined,
): Promise<{ child: ChildProcess; address: string }> {
  const args = ['--import', 'tsx', '--conditions=source', join(root, 'e2e/serve.ts')];
  const child = spawn(
    process.execPath,
    [...args, dataFolder, screens, String(port), ...(media === undefined ? [] : [media])],
    {
      cwd: root,
      stdio: ['ignore', 'pipe', 'inherit'],
    },
  );
  for await (const line of createInterface({ input: child.stdout! })) {
    const found = /^ready (http:\S+)$/.exec(line);
    if (found !== null) return { child, address: found[1]! };
  }
  throw new Error('The server ended before it was ready.');
}
