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

/**
 * Registers the service worker. Nothing takes over by itself: a new version waits for `take`. Another tab that took
 * it leaves this page as it is; `isReady` then says that a reload brings the new version.
 */
export function registerOffline(page: Document = document): Updates {
  const container = 'serviceWorker' in navigator ? navigator.serviceWorker : null;
  const listeners = new Set<() => void>();
  let registration: ServiceWorkerRegistration | null = null;
  let isReady = false;
  let isAsked = false;
  let checkedAt = Date.now();

  const announce = () => {
    isReady = true;
    for (const listener of listeners) listener();
  };

  const watch = (found: ServiceWorkerRegistration) => {
    registration = found;
    if (found.waiting !== null && container?.controller) announce();
    found.addEventListener('updatefound', () => {
      const coming = found.installing;
      coming?.addEventListener('statechange', () => {
        // Without a controller this is the first version ever, not an update.
        if (coming.state === 'installed' && container?.controller) announce();
      });
    });
  };

  if (container !== null) {
    const hadController = container.controller !== null;
    container.addEventListener('controllerchange', () => {
      if (isAsked) location.reload();
      else if (hadController) announce();
    });
    // A browser that refuses says so in Safety.lacks (lacks.ts asks it); the page works on without.
    container.register('/sw.js', { updateViaCache: 'none' }).then(watch, () => undefined);
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
