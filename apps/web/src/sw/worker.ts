/**
 * The service worker: lets the book start while the camp computer is off. Plain script without imports;
 * offline.ts puts VERSION and FILES before it.
 *
 * Rules: the interface (/api) is never kept. A new version waits until a person asks for it; nothing here takes
 * over by itself. The version before stays kept, so that a page that still runs it can load the rest of itself. The
 * method site is kept when a page that is done with its start asks for it; what is missing is asked for again then.
 */
declare const VERSION: string;
/** Address to integrity hash of every file of this build. */
declare const FILES: Readonly<Record<string, string>>;
/** The same for the method site. */
declare const LATER: Readonly<Record<string, string>>;

/** What this script uses of the worker's surroundings (the page's library has no types for them). */
interface WorkerSurroundings {
  readonly location: Location;
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(kind: 'install' | 'activate', listener: (event: LifeEvent) => void): void;
  addEventListener(kind: 'fetch', listener: (event: AskEvent) => void): void;
  addEventListener(kind: 'message', listener: (event: MessageEvent & LifeEvent) => void): void;
}

interface LifeEvent {
  waitUntil(done: Promise<unknown>): void;
}

interface AskEvent {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}

const surroundings = self as unknown as WorkerSurroundings;
const prefix = 'firnbook-';
const own = `${prefix}${VERSION}`;
const methods = '/method/';
const turn = '/turn-of-this-version';

surroundings.addEventListener('install', (event) => event.waitUntil(keepBuild()));
surroundings.addEventListener('activate', (event) => event.waitUntil(settleIn()));
surroundings.addEventListener('message', (event) => {
  if (event.data === 'take over') void surroundings.skipWaiting();
  if (event.data === 'keep the methods') event.waitUntil(keepLater());
});
surroundings.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== surroundings.location.origin) return;
  if (url.pathname.startsWith('/api/')) return;
  const isScreen = request.mode === 'navigate' && !url.pathname.startsWith(methods);
  event.respondWith(isScreen ? page(request) : file(request, url.pathname));
});

/** All or nothing: one file that is missing or differs from its hash fails the installation. */
async function keepBuild(): Promise<void> {
  const cache = await caches.open(own);
  const requests = Object.entries(FILES).map(
    ([address, integrity]) => new Request(address, { integrity, cache: 'no-cache' }),
  );
  await cache.addAll(requests);
}

/** One after the other, so that entries on their way have the line; a file that fails is missing until the next start. */
async function keepLater(): Promise<void> {
  const cache = await caches.open(own);
  for (const [address, integrity] of Object.entries(LATER)) {
    if ((await cache.match(address)) !== undefined) continue;
    await cache.add(new Request(address, { integrity, cache: 'no-cache' })).catch(() => undefined);
  }
}

/**
 * This version, the one that ran before and later ones stay. Which one that was stands in the caches themselves: after
 * a way back and forth it is not the one that was made before (caches are listed in that order).
 */
async function settleIn(): Promise<void> {
  const names = (await caches.keys()).filter((name) => name.startsWith(prefix));
  const old = names.slice(0, names.indexOf(own));
  const turns = await Promise.all(names.map(turnOf));
  const last = Math.max(...turns);
  const before = names.find((name, index) => name !== own && last > 0 && turns[index] === last);
  const stays = before ?? old.at(-1);
  await Promise.all(old.filter((name) => name !== stays).map((name) => caches.delete(name)));
  await (await caches.open(own)).put(turn, new Response(String(last + 1)));
  await surroundings.clients.claim();
}

/** Counts the versions that ran on this device, in the cache of each; 0 for one that has not. */
async function turnOf(name: string): Promise<number> {
  const mark = await (await caches.open(name)).match(turn);
  return mark === undefined ? 0 : Number(await mark.text());
}

async function page(request: Request): Promise<Response> {
  const kept = await (await caches.open(own)).match('/');
  return kept ?? fetch(request);
}

async function file(request: Request, path: string): Promise<Response> {
  const kept = await (await caches.open(own)).match(path);
  return kept ?? (await caches.match(path)) ?? fetch(request);
}
