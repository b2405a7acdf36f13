/** The newer version of these screens that waits on this device, and the way to take it. */
export interface Updates {
  isReady(): boolean;
  subscribe(listener: () => void): () => void;
  /** A person asked for it: the waiting version takes over and the page reloads into it. */
  take(): void;
  /** False where this browser or address allows no service worker: then nothing starts without the camp computer. */
  readonly offlineStart: boolean;
}

const hour = 3_600_000;
/** Milliseconds until a first installation that broke off is tried again. */
const again = 20_000;
/** Milliseconds after which the first look, and all that is fetched ahead, has come. */
const settled = 15_000;

/**
 * Registers the service worker. Nothing takes over by itself: a new version waits for `take`. Another tab that took
 * it leaves this page as it is; `isReady` then says that a reload brings the new version.
 */
export function registerOffline(page: Document = document): Updates {
  const container = 'serviceWorker' in navigator ? navigator.serviceWorker : null;
  const listeners = new Set<() => void>();
  let registration: ServiceWorkerRegistration | null = null;
  let followed: ServiceWorker | null = null;
  let isReady = false;
  let isAsked = false;
  let checkedAt = Date.now();

  const announce = () => {
    isReady = true;
    for (const listener of listeners) listener();
  };

  const follow = (coming: ServiceWorker | null) => {
    if (coming === null || coming === followed) return;
    followed = coming;
    coming.addEventListener('statechange', () => {
      // Without a controller this is the first version ever, not an update.
      if (coming.state === 'installed' && container?.controller) announce();
      // The camp computer went away in the middle of the first one: without another try nothing would start without it.
      if (coming.state === 'redundant' && !registration?.active) setTimeout(enlist, again);
    });
  };

  const watch = (found: ServiceWorkerRegistration) => {
    registration = found;
    if (found.waiting !== null && container?.controller) announce();
    follow(found.installing);
    found.addEventListener('updatefound', () => follow(found.installing));
  };

  // A browser that refuses says so in Safety.lacks (lacks.ts asks it); the page works on without. One that could not
  // fetch the script is asked again.
  const enlist = () =>
    void container?.register('/sw.js', { updateViaCache: 'none' }).then(watch, (error: unknown) => {
      if (error instanceof TypeError) setTimeout(enlist, again);
    });

  if (container !== null) {
    const hadController = container.controller !== null;
    container.addEventListener('controllerchange', () => {
      if (isAsked) location.reload();
      else if (hadController) announce();
    });
    enlist();
    setTimeout(() => {
      void container.ready.then(({ active }) => active?.postMessage('keep the methods'));
    }, settled);
    page.addEventListener('visibilitychange', () => {
      if (page.visibilityState !== 'visible' || Date.now() - checkedAt < hour) return;
      checkedAt = Date.now();
      registration?.update().catch(() => undefined);
    });
  }

  return {
    offlineStart: container !== null,
    isReady: () => isReady,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    take() {
      if (!isReady) return;
      isAsked = true;
      const waiting = registration?.waiting;
      if (waiting) waiting.postMessage('take over');
      else location.reload();
    },
  };
}
