import { once } from 'node:events';
import { createServer, type IncomingMessage, type Server } from 'node:http';
import { setTimeout as pause } from 'node:timers/promises';
import { afterEach, describe, expect, it } from 'vitest';
import { calm, type LossyProxy, type ProxyPlan, startLossyProxy, type Trouble } from './lossy-proxy.ts';
import { createRequestReader } from './lossy-proxy-requests.ts';

let camp: Server | null = null;
let proxy: LossyProxy | null = null;
afterEach(async () => {
  await proxy?.close();
  camp?.closeAllConnections();
  camp?.close();
});

const wholeBody = async (request: IncomingMessage): Promise<string> => {
  const pieces: Buffer[] = [];
  for await (const piece of request) pieces.push(piece as Buffer);
  return Buffer.concat(pieces).toString();
};

const sent = 'ice '.repeat(2000);
const answered = 'core '.repeat(4000);

/** A server that keeps what reached it whole, behind a proxy with one trouble and no other. */
async function behind(trouble: Partial<Record<Trouble, number>>, plan: Partial<ProxyPlan> = {}) {
  const got: string[] = [];
  camp = createServer((request, reply) => {
    wholeBody(request).then(
      (body) => {
        got.push(body);
        reply.end(answered);
      },
      () => undefined,
    );
  });
  camp.listen(0, '127.0.0.1');
  await once(camp, 'listening');
  const bound = camp.address() as { port: number };
  const usual = { seed: 7, reach: 6000, lateness: 30, stallFor: 60 };
  proxy = await startLossyProxy({ ...usual, ...plan, troubles: { ...calm, ...trouble } });
  proxy.aim(`http://127.0.0.1:${bound.port}`);
  const { address, met } = proxy;
  const ask = async (method = 'POST'): Promise<string> => {
    const body = method === 'POST' ? { body: sent } : {};
    // A connection of its own each time: troubles are drawn for connections.
    const answer = await fetch(address, {
      method,
      headers: { connection: 'close' },
      ...body,
      signal: AbortSignal.timeout(3000),
    });
    return answer.text();
  };
  const often = async (times: number): Promise<number> => {
    let whole = 0;
    for (let step = 0; step < times; step += 1) if ((await ask().catch(() => '')) === answered) whole += 1;
    return whole;
  };
  return { ask, often, got, met, proxy };
}

describe('the lossy proxy', () => {
  it('passes everything on, byte for byte, while there is no trouble', async () => {
    const { often, got, met } = await behind({});
    expect(await often(5)).toBe(5);
    expect(got).toEqual(Array.from({ length: 5 }, () => sent));
    expect(met).toEqual({ refuse: 0, cutUp: 0, cutDown: 0, delay: 0, stall: 0, replay: 0 });
  });

  it('cut on the way up: neither a whole request nor an answer', async () => {
    const { often, got, met } = await behind({ cutUp: 1 });
    expect(await often(6)).toBe(0);
    expect(got).toEqual([]);
    expect(met.cutUp).toBe(6);
  });

  it('cut on the way down: what was asked was done, and the one who asked does not know', async () => {
    const { often, got, met } = await behind({ cutDown: 1 });
    expect(await often(6)).toBe(0);
    expect(got).toHaveLength(6);
    expect(met.cutDown).toBe(6);
  });

  it('refuses connections', async () => {
    const { often, got, met } = await behind({ refuse: 0.5 }, { seed: 3 });
    const whole = await often(20);
    expect(whole).toBe(20 - met.refuse);
    expect(met.refuse).toBeGreaterThan(3);
    expect(got).toHaveLength(whole);
  });

  it('stalls: nothing comes for a while, then the connection ends', async () => {
    const { ask, met } = await behind({ stall: 1 }, { stallFor: 200 });
    const begun = performance.now();
    await expect(ask()).rejects.toThrow();
    expect(performance.now() - begun).toBeGreaterThan(190);
    expect(met.stall).toBe(1);
  });

  it('delays in both directions and loses nothing', async () => {
    const { ask, met } = await behind({ delay: 1 }, { seed: 5, lateness: 200 });
    const begun = performance.now();
    expect(await ask()).toBe(answered);
    expect(performance.now() - begun).toBeGreaterThan(20);
    expect(met.delay).toBe(1);
  });

  it('says a whole request that writes twice, and one that reads once', async () => {
    const { ask, got, met } = await behind({ replay: 1 });
    expect(await ask('GET')).toBe(answered);
    expect(await ask()).toBe(answered);
    for (let tries = 0; got.length < 3 && tries < 200; tries += 1) await pause(10);
    expect(got).toEqual(['', sent, sent]);
    expect(met.replay).toBe(1);
  });

  it('healed, it passes everything on again; aimed anew, it passes it to the new one', async () => {
    const { ask, often, proxy: lossy } = await behind({ refuse: 1 });
    expect(await often(2)).toBe(0);
    lossy.heal();
    expect(await ask()).toBe(answered);
    const other = createServer((_, reply) => void reply.end('the other'));
    other.listen(0, '127.0.0.1');
    await once(other, 'listening');
    lossy.aim(`http://127.0.0.1:${(other.address() as { port: number }).port}`);
    expect(await ask('GET')).toBe('the other');
    other.closeAllConnections();
    other.close();
  });

  it('the same seed brings the same troubles', async () => {
    const some = { refuse: 0.3, cutUp: 0.3, cutDown: 0.3 };
    const first = await behind(some, { seed: 11 });
    const whole = await first.often(15);
    await first.proxy.close();
    const second = await behind(some, { seed: 11 });
    expect(await second.often(15)).toBe(whole);
    expect(second.met).toEqual(first.met);
    expect(whole).toBeGreaterThan(0);
    expect(whole).toBeLessThan(15);
  });
});

describe('the reader of requests', () => {
  it('sees whole requests, however they are broken into pieces', () => {
    const stream = Buffer.from(
      'GET /a HTTP/1.1\r\nhost: x\r\n\r\nPOST /b HTTP/1.1\r\nContent-Length: 5\r\n\r\nhelloPUT /c HTTP/1.1\r\ncontent-length: 2\r\n\r\nno',
    );
    for (const size of [1, 7, 33, stream.length]) {
      const seen: string[] = [];
      const reader = createRequestReader((request) => void seen.push(request.toString()));
      for (let at = 0; at < stream.length; at += size) reader.read(stream.subarray(at, at + size));
      expect(seen).toEqual([
        'POST /b HTTP/1.1\r\nContent-Length: 5\r\n\r\nhello',
        'PUT /c HTTP/1.1\r\ncontent-length: 2\r\n\r\nno',
      ]);
    }
  });

  it('tells nothing more after a request of unknown length', () => {
    const seen: Buffer[] = [];
    const reader = createRequestReader((request) => void seen.push(request));
    reader.read(Buffer.from('POST /a HTTP/1.1\r\ntransfer-encoding: chunked\r\n\r\n2\r\nhi\r\n0\r\n\r\n'));
    reader.read(Buffer.from('POST /b HTTP/1.1\r\ncontent-length: 1\r\n\r\nx'));
    expect(seen).toEqual([]);
  });
});
