import { type ChildProcess, spawn } from 'node:child_process';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { firnbook, inFolder } from '../try.suite.ts';

const main = fileURLToPath(new URL('../main.ts', import.meta.url));

/** A start in a process of its own, up to the line with its address. */
const start = async (data: string): Promise<{ child: ChildProcess; address: string; said: () => string }> => {
  const child = spawn(
    process.execPath,
    ['--import', 'tsx', '--conditions=source', main, 'start', '--data', data, '--port', '0', '--no-open'],
    { stdio: ['ignore', 'pipe', 'inherit'] },
  );
  let out = '';
  const address = await new Promise<string>((resolve, reject) => {
    child.stdout.on('data', (chunk) => {
      out += chunk;
      const found = /open at (\S+)/.exec(out);
      if (found !== null) resolve(found[1]);
    });
    child.on('exit', () => reject(new Error(`it ended: ${out}`)));
  });
  return { child, address, said: () => out };
};

describe('firnbook start', () => {
  it('fills an empty folder with the demo, serves it, says where it runs at a second start, stops on Ctrl-C', () =>
    inFolder(async (folder) => {
      const data = join(folder, 'data');
      const { child, address, said } = await start(data);
      const ended = new Promise<number | null>((resolve) => child.on('exit', resolve));
      try {
        const list = (await (await fetch(`${address}/api/campaigns`)).json()) as { entries: number }[];
        expect(list).toHaveLength(1);
        expect(list[0].entries).toBeGreaterThan(50);
        const second = await firnbook('start', '--data', data, '--no-open');
        expect(second).toMatchObject({ code: 0 });
        expect(second.out).toContain(`already runs on this data folder, at ${address}`);
      } finally {
        child.kill('SIGINT');
      }
      expect(await ended).toBe(0);
      expect(said()).toContain('the invented Ceredin Saddle');
      expect(said()).toContain('Stopped. Everything is on the disk.');
    }));

  it('says what to do where the port is taken, and leaves the folder free', () =>
    inFolder(async (folder) => {
      const other = createServer().listen(0, '127.0.0.1');
      await new Promise((resolve) => other.once('listening', resolve));
      const port = String((other.address() as AddressInfo).port);
      const { code, err } = await firnbook('start', '--data', folder, '--port', port, '--no-open');
      other.close();
      expect(code).toBe(2);
      expect(err).toContain(`Port ${port} on 127.0.0.1 is in use. Choose another with --port`);
      expect((await firnbook('state', '--data', folder)).code).toBe(0);
    }));

  it('refuses a port that is none', async () => {
    expect((await firnbook('start', '--port', 'x')).err).toContain('"x" is no port');
  });
});
