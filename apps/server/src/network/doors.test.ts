import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newCampaign, runLogged, sync, tablet } from '../crew.suite.ts';
import { securityHeaders } from '../headers.ts';
import { allRoutes, ask, type Camp, campName, openCamp, type RouteLine } from './camp.suite.ts';

const { book, installer } = await allRoutes();
const campaign = newCampaign();
let camp: Camp;
let paired = '';
let revoked = '';

beforeAll(async () => {
  camp = await openCamp();
  const device = await tablet(campaign);
  await device.write([runLogged(7)]);
  await sync(device, camp.server.address);
  paired = await camp.pair('tablet 1');
  revoked = await camp.pair('tablet 2');
  await revoke('tablet 2');
}, 60_000);
afterAll(() => camp.close());

async function revoke(name: string): Promise<void> {
  const list = (await (await fetch(`${camp.server.address}/api/devices`)).json()) as {
    id: string;
    name: string;
  }[];
  const id = list.find((one) => one.name === name)?.id;
  const answer = await fetch(`${camp.server.address}/api/devices/${id}/revoke`, { method: 'POST' });
  expect(answer.status).toBe(200);
}

const filled = (url: string, id = campaign) =>
  url.replace('/*', '/').replace(':id', id).replace(':sha256', 'a7'.repeat(32));

const over = (route: RouteLine, cookie: string, more: Readonly<Record<string, string>> = {}) =>
  ask(`${camp.network}${filled(route.url)}`, {
    method: route.method,
    ca: camp.authority,
    headers: {
      ...(cookie !== '' && { cookie }),
      ...(route.method !== 'GET' && { 'content-type': 'application/json' }),
      ...more,
    },
    ...(route.method !== 'GET' && { body: '{}' }),
  });

/** What each role gets on each policy over the network; "in" is whatever the route itself answers. */
const matrix: Readonly<Record<string, Readonly<Record<'nobody' | 'paired' | 'revoked', number | 'in'>>>> = {
  anyone: { nobody: 'in', paired: 'in', revoked: 'in' },
  'crew reads': { nobody: 401, paired: 'in', revoked: 401 },
  'crew writes': { nobody: 401, paired: 'in', revoked: 401 },
  'camp computer': { nobody: 401, paired: 403, revoked: 401 },
};

describe('A1: route by role over the camp network', () => {
  const lines = book.flatMap((route) =>
    (['nobody', 'paired', 'revoked'] as const).map((role) => ({
      title: `${route.method} ${route.url} for ${role}`,
      route,
      role,
    })),
  );
  it.each(lines)('$title', async ({ route, role }) => {
    const cookie = { nobody: '', paired, revoked }[role];
    const { status, text } = await over(route, cookie);
    const wanted = matrix[route.policy]?.[role];
    if (wanted !== 'in') expect(status).toBe(wanted);
    else expect(JSON.stringify([status, text])).not.toMatch(/"why"|camp computer itself"/);
    if (status === 401) expect(JSON.parse(text).why).toBe(role === 'revoked' ? 'revoked' : 'not paired');
  });

  it('is the whole policy table: a new policy needs a line here', () => {
    expect(new Set(book.map(({ policy }) => policy))).toEqual(new Set(Object.keys(matrix)));
  });

  it('only these four are open to anyone, and none of them tells of a campaign', async () => {
    const open = book.filter(({ policy }) => policy === 'anyone');
    expect(open.map(({ method, url }) => `${method} ${url}`)).toEqual([
      'GET /*',
      'GET /api/device',
      'GET /api/health',
      'POST /api/pairing',
    ]);
    for (const route of open) expect((await over(route, '')).text).not.toContain(campaign);
  });

  it('on this computer every route is let in', async () => {
    for (const { method, url } of book) {
      const answer = await ask(`${camp.server.address}${filled(url)}`, { method });
      expect([401, 403]).not.toContain(answer.status);
    }
  });

  const ofCampaign = book.filter(
    ({ url, policy }) => url.startsWith('/api/campaigns/:id') && policy !== 'camp computer',
  );
  it.each(ofCampaign)('$method $url of an unknown campaign is 404 to a paired device', async (route) => {
    const isFile = route.method === 'PUT';
    const id = newCampaign();
    const request = (await tablet(id)).ask('camp');
    const { status } = await ask(`${camp.network}${filled(route.url, id)}`, {
      method: route.method,
      ca: camp.authority,
      headers: {
        cookie: paired,
        'content-type': isFile ? 'application/octet-stream' : 'application/json',
      },
      ...(route.method !== 'GET' && { body: isFile ? '{}' : JSON.stringify(request) }),
    });
    expect(status).toBe(404);
  });

  it('an address that no route has is 404, also to somebody unknown', async () => {
    const route = { method: 'GET', url: '/api/nothing', policy: '' };
    expect((await over(route, '')).status).toBe(404);
    const wrong = { method: 'DELETE', ca: camp.authority, headers: { cookie: paired } };
    expect((await ask(`${camp.network}/api/devices`, wrong)).status).toBe(404);
  });

  it.each([
    ['one sign off', () => `${paired.slice(0, -1)}${paired.endsWith('A') ? 'B' : 'A'}`],
    ['without its prefix', () => paired.replace('__Host-', '')],
    ['cut short', () => paired.slice(0, -1)],
    ['empty', () => '__Host-firnbook='],
    ['the hash instead', () => `__Host-firnbook=${'0'.repeat(43)}`],
  ])('a credential %s lets nobody in', async (_what, cookie) => {
    const route = book.find(({ url }) => url === '/api/campaigns');
    if (route === undefined) throw new Error('no such route');
    expect((await over(route, paired)).status).toBe(200);
    expect((await over(route, cookie())).status).toBe(401);
  });

  it('a device revoked between two requests is refused at the next, and its entries stay', async () => {
    const cookie = await camp.pair('tablet 3');
    const list = { method: 'GET', url: '/api/campaigns', policy: '' };
    expect((await over(list, cookie)).status).toBe(200);
    await revoke('tablet 3');
    const answer = await over(list, cookie);
    expect([answer.status, JSON.parse(answer.text).what]).toEqual([401, 'This device was revoked']);
    const held = await fetch(`${camp.server.address}/api/campaigns/${campaign}/digest`);
    expect(((await held.json()) as { entries: number }).entries).toBe(1);
  });
});

describe('A2: plain http on the network', () => {
  it('plain http on the network gives the certificate, its page, and the way to https', async () => {
    expect(installer.map(({ method, url, policy }) => `${method} ${url}: ${policy}`)).toEqual([
      'GET /*: anyone',
      'GET /: anyone',
      'GET /firnbook-camp.crt: anyone',
      'GET /install.css: anyone',
    ]);
    const page = await ask(`${camp.installer}/`, {});
    expect([page.status, page.headers['content-type']]).toEqual([200, 'text/html; charset=utf-8']);
    expect(page.text).not.toMatch(/<script|style=|onclick/i);
    for (const path of [
      '/api/campaigns',
      `/c/${campaign}`,
      '/pair?token=x',
      '//evil.example/x',
      '/\\evil.example',
    ])
      expect(await leadsTo(path)).toMatch(/^307 https:\/\/127\.0\.0\.1:\d+\/[^/\\?]/);
    for (const method of ['POST', 'PUT', 'DELETE'])
      expect((await ask(`${camp.installer}/api/pairing`, { method })).status).toBe(404);
  });

  async function leadsTo(path: string): Promise<string> {
    const { status, headers } = await ask(`${camp.installer}${path}`, {});
    return `${status} ${headers.location}`;
  }
});

describe('A4: headers over the network', () => {
  it('stand on every answer of every route, to everybody, and on refusals', async () => {
    const answers = [];
    for (const route of book)
      for (const cookie of ['', paired, revoked]) answers.push(await over(route, cookie));
    for (const path of ['/', '/install.css', '/firnbook-camp.crt', '/elsewhere'])
      answers.push(await ask(`${camp.installer}${path}`, {}));
    answers.push(await ask(`${camp.installer}/`, { headers: { host: 'x.example' } }));
    answers.push(await ask(`${camp.network}/`, { ca: camp.authority, headers: { host: 'x.example' } }));
    for (const { headers } of answers) {
      for (const [name, value] of Object.entries(securityHeaders)) expect(headers[name]).toBe(value);
      expect(headers['x-powered-by']).toBeUndefined();
    }
    expect(answers.slice(-2).map(({ status }) => status)).toEqual([421, 421]);
  });

  it('HSTS goes to paired devices alone: they took the certificate', async () => {
    const route = { method: 'GET', url: '/api/health', policy: '' };
    expect((await over(route, paired)).headers['strict-transport-security']).toBe('max-age=15552000');
    for (const cookie of ['', revoked])
      expect((await over(route, cookie)).headers['strict-transport-security']).toBeUndefined();
    expect((await ask(`${camp.server.address}/`, {})).headers['strict-transport-security']).toBeUndefined();
  });

  it.each([campName, '127.0.0.1'])('the book answers to %s over the network', async (host) => {
    const route = { method: 'GET', url: '/api/health', policy: '' };
    expect((await over(route, '', { host: `${host}:7443` })).status).toBe(200);
  });

  it.each(['localhost', '[::1]', 'other.internal', `${campName}.example`, `user@${campName}`])(
    'and not to "%s"',
    async (host) => {
      const route = { method: 'GET', url: '/api/health', policy: '' };
      expect((await over(route, paired, { host })).status).toBe(421);
    },
  );

  it.each(['http://127.0.0.1:7443', 'https://x.example', 'null'])(
    'a write from a page of %s is refused to a paired device',
    async (origin) => {
      const route = { method: 'POST', url: '/api/campaigns/:id/exchange', policy: '' };
      expect((await over(route, paired, { origin })).status).toBe(403);
      const own = new URL(camp.network).origin;
      expect((await over(route, paired, { origin: own })).status).toBe(400);
    },
  );

  it('the cookie is for this host alone, for https, and for no script and no other site', async () => {
    const { token } = await camp.offer();
    const { headers } = await ask(`${camp.network}/api/pairing`, {
      method: 'POST',
      ca: camp.authority,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ secret: token, name: `tablet ${randomUUID().slice(0, 4)}` }),
    });
    expect(String(headers['set-cookie'])).toMatch(
      /^__Host-firnbook=[\w-]{43}; Path=\/; Max-Age=34560000; Secure; HttpOnly; SameSite=Strict$/,
    );
  });
});
