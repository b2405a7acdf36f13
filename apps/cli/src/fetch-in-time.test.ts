import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createServer, type RequestListener } from 'node:http';
import { createServer as createPlain } from 'node:net';
import { createInterface } from 'node:readline';
import { describe, expect, it } from 'vitest';
import { campAt } from './camp.ts';
import { fetchInTime, jsonOf } from './fetch-in-time.ts';

const patience = 400;

/** A server in this process for the time of one test. */
async function served(answer: RequestListener, work: (address: string) => Promise<void>): Promise<void> {
  const server = createServer(answer).listen(0, '127.0.0.1');
  await once(server, 'listening');
  try {
    await work(`http://127.0.0.1:${(server.address() as { port: number }).port}`);
  } finally {
    server.closeAllConnections();
    server.close();
  }
}

/** Settled or not, at the latest a second after its time. */
const settled = (work: Promise<unknown>) =>
  Promise.race([
    work.then(
      () => 'answered',
      (error: Error) => error.message,
    ),
    new Promise<string>((resolve) => setTimeout(() => resolve('still waiting'), patience + 1000)),
  ]);

describe('a request to the camp computer', () => {
  it('control: an answer that comes in time is read to its end', () =>
    served(
      (_request, response) => {
        response.write('{"half":');
        setTimeout(() => response.end('1}'), patience / 4);
      },
      async (address) => {
        const answer = await fetchInTime(address, {}, patience);
        expect([answer.status, jsonOf(answer)]).toEqual([200, { half: 1 }]);
      },
    ));

  it('that is taken and never answered ends in words', () =>
    served(
      () => undefined,
      async (address) => {
        expect(await settled(fetchInTime(address, {}, patience))).toBe(
          `no whole answer within ${patience} ms`,
        );
        expect(await settled(campAt(address, patience).campaigns())).toContain('the server does not answer');
      },
    ));

  it('whose connection is taken by something that is no server ends in words', async () => {
    const server = createPlain(() => undefined).listen(0, '127.0.0.1');
    await once(server, 'listening');
    const address = `http://127.0.0.1:${(server.address() as { port: number }).port}`;
    expect(await settled(campAt(address, patience).campaigns())).toContain('the server does not answer');
    server.close();
  });

  it('whose answer stops in its middle ends in words', () =>
    served(
      (_request, response) => void response.write('[{"id":"cer'),
      async (address) => {
        expect(await settled(campAt(address, patience).campaigns())).toContain('the server does not answer');
        expect(await settled(campAt(address, patience).attachment('ceredin', 'a'.repeat(64)))).toContain(
          'the server does not answer',
        );
      },
    ));

  it('whose server is killed in the middle of its answer ends in words, ten times of ten', async () => {
    const script = `
      require('node:http').createServer((_request, response) => {
        response.writeHead(200, { 'content-length': 1000 });
        response.write('[{"id":"cer');
        process.stdout.write('half\\n');
      }).listen(0, '127.0.0.1', function () { process.stdout.write(this.address().port + '\\n'); });`;
    for (let round = 0; round < 10; round += 1) {
      const child = spawn(process.execPath, ['-e', script], { stdio: ['ignore', 'pipe', 'inherit'] });
      const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
      const port = (await lines.next()).value as string;
      const asked = settled(campAt(`http://127.0.0.1:${port}`, patience).campaigns());
      await lines.next();
      child.kill('SIGKILL');
      expect(await asked).toContain('the server does not answer');
    }
  });

  it('control: a wait for the answer alone, without the timer, is still waiting', () =>
    served(
      (_request, response) => void response.write('half'),
      async (address) => {
        const bare = fetch(address).then((answer) => answer.text());
        expect(await settled(bare)).toBe('still waiting');
      },
    ));
});
