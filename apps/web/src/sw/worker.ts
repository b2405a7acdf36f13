/**
 * The service worker: lets the book start while the camp computer is off. Plain script without imports;
 * offline.ts puts VERSION and FILES before it.
 *
 * Rules: the interface (/api) is never kept. A new version waits until a person asks for it; nothing here takes
 * over by itself. The version before stays kept, so that a page that still runs it can load the rest of itself.
 */
declare const VERSION: string;
/** Address to integrity hash of every file of this build. */
declare const FILES: Readonly<Record<string, string>>;

/** What this script uses of the worker's surroundings (the page's library has no types for them). */
interface WorkerSurroundings {
  readonly location: Location;
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(kind: 'install' | 'activate', listener: (event: LifeEvent) => void): void;
  addEventListener(kind: 'fetch', listener: (event: AskEvent) => void): void;
  addEventListener(kind: 'message', listener: (event: MessageEvent) => void): void;
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

surroundings.addEventListener('install', (event) => event.waitUntil(keepBuild()));
surroundings.addEventListener('activate', (event) => event.waitUntil(settleIn()));
surroundings.addEventListener('message', (event) => {
  if (event.data === 'take over') void surroundings.skipWaiting();
});
surroundings.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== surroundings.location.origin) return;
  if (url.pathname.startsWith('/api/')) return;
  event.respondWith(request.mode === 'navigate' ? page(request) : file(request, url.pathname));
});

/** All or nothing: one file that is missing or differs from its hash fails the installation. */
async function keepBuild(): Promise<void> {
  const cache = await caches.open(own);
  const requests = Object.entries(FILES).map(
    ([address, integrity]) => new Request(address, { integrity, cache: 'no-cache' }),
  );
  await cache.addAll(requests);
}

/** Caches are listed in the order in which they were made: this one, the one before and later ones stay. */
async function settleIn(): Promise<void> {
  const names = (await caches.keys()).filter((name) => name.startsWith(prefix));
  const old = names.slice(0, names.indexOf(own));
  await Promise.all(old.slice(0, -1).map((name) => caches.delete(name)));
  await surroundings.clients.claim();
}

async function page(request: Request): Promise<Response> {
  const kept = await (await caches.open(own)).match('/');
  return kept ?? fetch(request);
}

async function file(request: Request, path: string): Promise<Response> {
  const kept = await (await caches.open(own)).match(path);
  return kept ?? (await caches.match(path)) ?? fetch(request);
}
