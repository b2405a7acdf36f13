import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { inFolder } from './folders.suite.ts';
import { lockFolder } from './lock.ts';

const holder = fileURLToPath(new URL('./lock-holder.suite.ts', import.meta.url));

it('lockFolder refuses a folder that another process holds, names it, and has it at once when that was killed', () =>
  inFolder(async (folder) => {
    const args = ['--import', 'tsx', '--conditions=source', holder, folder];
    const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] });
    await once(child.stdout, 'data');
    expect(() => lockFolder(folder, 'the test')).toThrow(`in use by the holder (process ${child.pid} on `);
    child.kill('SIGKILL');
    await once(child, 'close');
    lockFolder(folder, 'the test').release();
  }));

it('lockFolder refuses a second holder in the same process until the first lets go', () =>
  inFolder((folder) => {
    const first = lockFolder(folder, 'the first');
    expect(() => lockFolder(folder, 'the second')).toThrow('in use by the first');
    first.release();
    first.release();
    lockFolder(folder, 'the second').release();
  }));
