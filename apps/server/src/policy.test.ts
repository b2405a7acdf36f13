import { createHash } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { request as ask } from 'node:http';
import { join } from 'node:path';
import { fastify } from 'fastify';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newCampaign, runLogged, sync, tablet } from './crew.suite.ts';
import { temporaryFolder } from './folders.suite.ts';
import { securityHeaders } from './headers.ts';
import { allRoutes } from './network/camp.suite.ts';
import { holdToPolicies } from './policy.ts';
import { type Server, startServer } from './start.ts';

interface Answer {
  readonly status: number;
  readonly headers: Record<string, string | string[] | undefined>;
  readonly text: string;
}

/** By hand: fetch doesn't let a test say another Host or Origin. */
function call(address: string, method: string, path: string, headers: Record<string, string>, body = '') {
  return new Promise<Answer>((resolve, reject) => {
    const { port } = new URL(address);
    const sent = ask({
      host: '127.0.0.1',
      port,
      method,
      path,
      headers: { host: `127.0.0.1:${port}`, ...headers },
    });
    sent.once('error', reject);
    sent.once('response', (response) => {
      let text = '';
      response.on('data', (chunk) => {
        text += String(chunk);
      });
      response.once('end', () =>
        resolve({ status: response.statusCode ?? 0, headers: response.headers, text }),
      );
    });
    sent.end(body);
  });
}

const campaign = newCampaign();
const exchange = `/api/campaigns/${campaign}/exchange`;
const nothing = 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855';
const json = { 'content-type': 'application/json' };
const folder = temporaryFolder();
let server: Server;

beforeAll(async () => {
  const webFolder = join(folder.path, 'web');
  mkdirSync(join(webFolder, 'assets'), { recursive: true });
  writeFileSync(join(webFolder, 'index.html'), `<!doctype html><title>Book</title>${' '.repeat(3000)}`);
  mkdirSync(join(webFolder, 'method'));
  writeFileSync(join(webFolder, 'method', 'index.html'), '<!doctype html><title>Methods</title>');
  writeFileSync(join(webFolder, 'sw.js'), 'self.addEventListener("fetch", () => {});');
  writeFileSync(join(webFolder, 'assets', 'page-3f9c2a.js'), 'export {};');
  writeFileSync(join(webFolder, '.secret'), 'no');
  writeFileSync(join(folder.path, 'outside.txt'), 'no');
  server = await startServer({
    dataFolder: join(folder.path, 'data'),
    webFolder,
    port: 0,
    log: () => undefined,
  });
  const device = await tablet(campaign);
  await device.write([runLogged(7)]);
  await sync(device, server.address);
});

afterAll(async () => {
  await server.close();
  folder.remove();
});

const get = (path: string, headers: Record<string, string> = {}) =>
  call(server.address, 'GET', path, headers);
const send = (path: string, body: string, headers: Record<string, string> = json) =>
  call(server.address, 'POST', path, headers, body);

describe('policies', () => {
  it('every route names one, and there are these routes and no others', async () => {
    const lines = (await allRoutes()).book.map(({ method, url, policy }) => `${method} ${url}: ${policy}`);
    expect(lines).toEqual([
      'GET /*: anyone',
      'GET /api/campaigns/:id/attachments/:sha256/pieces/:offset: crew reads',
      'GET /api/campaigns/:id/attachments/:sha256/pieces: crew reads',
      'GET /api/campaigns/:id/attachments/:sha256: crew reads',
      'GET /api/campaigns/:id/backups: crew reads',
      'GET /api/campaigns/:id/digest: crew reads',
      'GET /api/campaigns/:id/pins: crew reads',
      'GET /api/campaigns/:id/presence: crew reads',
      'GET /api/campaigns: crew reads',
      'GET /api/device: anyone',
      'GET /api/devices/entries: crew reads',
      'GET /api/devices: crew reads',
      'GET /api/health: anyone',
      'GET /api/sticks/:id/generations: crew reads',
      'GET /api/sticks/:id/network: camp computer',
      'GET /api/sticks/unnamed: camp computer',
      'GET /api/sticks: crew reads',
      'POST /api/campaigns/:id/exchange: crew writes',
      'POST /api/campaigns/:id/pins/:person/check: crew writes',
      'POST /api/campaigns/:id/pins/:person/reset: camp computer',
      'POST /api/campaigns/:id/pins/:person: crew writes',
      'POST /api/campaigns/:id/presence: crew writes',
      'POST /api/device/key: crew writes',
      'POST /api/devices/:id/revoke: camp computer',
      'POST /api/pairing/offers: camp computer',
      'POST /api/pairing: anyone',
      'POST /api/sticks/:id/recover-network: camp computer',
      'POST /api/sticks/:id/recover: crew writes',
      'POST /api/sticks/unnamed/stop: camp computer',
      'POST /api/sticks/unnamed: camp computer',
      'PUT /api/campaigns/:id/attachments/:sha256/pieces/:offset: crew writes',
      'PUT /api/campaigns/:id/attachments/:sha256: crew writes',
    ]);
  });

  it('a route without one is refused when it is made', () => {
    const app = fastify();
    holdToPolicies(app);
    expect(() => app.get('/api/forgotten', async () => 'open to all')).toThrow(
      '/api/forgotten has no policy',
    );
  });
});

describe('headers', () => {
  const places = [
    '/',
    '/assets/page-3f9c2a.js',
    '/assets/gone.js',
    '/sw.js',
    '/api/health',
    '/api/campaigns',
  ];
  places.push(
    `/api/campaigns/${campaign}/digest`,
    '/api/nothing',
    `/api/campaigns/${campaign}/attachments/x`,
  );

  it.each(places)('%s is answered with all of them', async (path) => {
    const { headers } = await get(path);
    for (const [name, value] of Object.entries(securityHeaders)) expect(headers[name]).toBe(value);
    expect(headers['x-powered-by']).toBeUndefined();
  });

  it('refusals at the door carry them too', async () => {
    for (const answer of [await get('/', { host: 'x.example' }), await send(exchange, '{', json)])
      expect(answer.headers['content-security-policy']).toBe(securityHeaders['content-security-policy']);
  });

  it('the policy of the page allows only what this server serves', () => {
    const csp = securityHeaders['content-security-policy'] ?? '';
    expect(csp).toContain("default-src 'none'");
    expect(csp).toContain("frame-ancestors 'none'");
    expect(csp).not.toMatch(/unsafe-inline|unsafe-eval'(?<!wasm-unsafe-eval')|\*|https?:/);
  });
});

describe('Host', () => {
  it.each(['127.0.0.1:1', 'localhost', 'LOCALHOST:7411', '[::1]:7411'])('%s is let in', async (host) => {
    expect((await get('/api/health', { host })).status).toBe(200);
  });
  it.each(['camp.example', '127.0.0.1.example', 'user@127.0.0.1', '[::1', '127.0.0.1:1:2'])(
    '"%s" is refused with 421 and words',
    async (host) => {
      const answer = await get('/api/campaigns', { host });
      expect(answer.status).toBe(421);
      expect(Object.keys(JSON.parse(answer.text)).sort()).toEqual(['mend', 'what', 'where']);
    },
  );
});

describe('Origin', () => {
  it.each(['http://camp.example', 'null', 'http://127.0.0.1:1', 'https://127.0.0.1.example'])(
    'a write from a page of %s is refused',
    async (origin) => {
      expect((await send(exchange, '{}', { ...json, origin })).status).toBe(403);
      const path = `/api/campaigns/${campaign}/attachments/${nothing}`;
      const put = { 'content-type': 'application/octet-stream', origin };
      expect((await call(server.address, 'PUT', path, put)).status).toBe(403);
    },
  );
  it('a write that a browser calls cross-site is refused', async () => {
    expect((await send(exchange, '{}', { ...json, 'sec-fetch-site': 'cross-site' })).status).toBe(403);
  });
  it('a write from its own page is let in', async () => {
    const answer = await send(exchange, '{}', {
      ...json,
      origin: server.address,
      'sec-fetch-site': 'same-origin',
    });
    expect(answer.status).toBe(400);
  });
});

describe('what comes in', () => {
  it.each([
    ['a prototype', '{"__proto__":{"x":1}}', 400],
    ['a constructor', '{"a":{"constructor":{"prototype":{"x":1}}}}', 400],
    ['half an object', '{', 400],
    ['nothing', '', 400],
    ['a list', '[]', 400],
    ['null', 'null', 400],
    ['an endless number', '{"protocol":1e999}', 400],
    ['9 MB', `"${'a'.repeat(9_000_000)}"`, 413],
  ])('exchange of %s is answered with a complaint', async (_what, body, status) => {
    const answer = await send(exchange, body);
    expect(answer.status).toBe(status);
    expect(Object.keys(JSON.parse(answer.text)).sort()).toEqual(['mend', 'what', 'where']);
    expect(answer.text).not.toMatch(/node_modules|\.ts:|\.js:| at /);
    expect(({} as Record<string, unknown>).x).toBeUndefined();
  });

  it.each(['text/plain', 'application/x-www-form-urlencoded', 'application/octet-stream', ''])(
    'exchange as "%s" is refused with 415',
    async (type) => {
      const headers: Record<string, string> = type === '' ? {} : { 'content-type': type };
      expect((await send(exchange, '{}', headers)).status).toBe(415);
    },
  );

  it('a request for another campaign than its address names is refused', async () => {
    const device = await tablet(newCampaign());
    await device.write([runLogged(1)]);
    const answer = await send(exchange, JSON.stringify(device.ask('camp')));
    expect(answer.status).toBe(400);
    expect(JSON.parse(answer.text).what).toContain(device.campaign);
  });

  it.each([
    '..%2f..%2foutside.txt',
    '%2e%2e/outside.txt',
    '../outside.txt',
    '.secret',
    'assets/..%2f..%2foutside.txt',
  ])('GET /%s gives nothing from outside the screens', async (path) => {
    const answer = await get(`/${path}`);
    expect(answer.text).not.toBe('no');
    expect([400, 403, 404]).toContain(answer.status);
  });

  it.each(['..%2fx', 'A', 'x'.repeat(63), nothing.toUpperCase()])(
    'attachment "%s" is no name',
    async (name) => {
      expect((await get(`/api/campaigns/${campaign}/attachments/${name}`)).status).toBe(400);
    },
  );
});

describe('methods', () => {
  it('are pages of their own, with every header; their folder leads to the first', async () => {
    const { status, headers, text } = await get('/method/index.html');
    expect({ status, text }).toEqual({ status: 200, text: '<!doctype html><title>Methods</title>' });
    expect(headers['content-security-policy']).toBe(securityHeaders['content-security-policy']);
    expect(headers['cache-control']).toBe('no-cache');
    for (const path of ['/method', '/method/']) {
      const answer = await get(path);
      expect([answer.status, answer.headers.location]).toEqual([302, '/method/index.html']);
    }
    expect((await get('/method/gone.html')).status).toBe(404);
  });
});

describe('screens', () => {
  it('an address of a screen gives index.html, never kept by the browser unasked', async () => {
    for (const path of ['/', '/log/hole/B', '/index.html', '/sw.js']) {
      const { status, headers } = await get(path);
      expect([status, headers['cache-control']]).toEqual([200, 'no-cache']);
    }
  });
  it('files named by their content are kept for ever', async () => {
    const { headers } = await get('/assets/page-3f9c2a.js');
    expect(headers['cache-control']).toBe('public, max-age=31536000, immutable');
    expect(headers['content-type']).toContain('javascript');
  });
  it('a file that is gone is 404, not the page in its place', async () => {
    expect((await get('/assets/page-000000.js')).status).toBe(404);
  });
  it.each(['br', 'gzip'])('a page is sent as %s to a browser that reads it', async (coding) => {
    expect((await get('/', { 'accept-encoding': coding })).headers['content-encoding']).toBe(coding);
  });
});

describe('attachments', () => {
  const bytes = 'depth_m,value\n12.30,4,5\n';
  const name = '7a0d0a3f9e4f6f0f'.repeat(4);
  const octets = { 'content-type': 'application/octet-stream' };

  it('bytes that are not those of the name are refused and not kept', async () => {
    const path = `/api/campaigns/${campaign}/attachments/${name}`;
    const answer = await call(server.address, 'PUT', path, octets, bytes);
    expect(answer.status).toBe(400);
    expect((await get(path)).status).toBe(404);
  });

  it('bytes put under their SHA-256 come back as they were', async () => {
    const path = `/api/campaigns/${campaign}/attachments/${createHash('sha256').update(bytes).digest('hex')}`;
    expect((await call(server.address, 'PUT', path, octets, bytes)).status).toBe(201);
    expect((await call(server.address, 'PUT', path, octets, bytes)).status).toBe(201);
    const answer = await get(path);
    expect([answer.status, answer.text]).toEqual([200, bytes]);
  });

  it('another campaign does not give them out', async () => {
    expect((await get(`/api/campaigns/${newCampaign()}/attachments/${name}`)).status).toBe(404);
  });
});
