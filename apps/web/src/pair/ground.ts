import { askOwn, type Own } from './gate.ts';

/** Whether this device may be paired from here, or why not. */
export type Ground =
  | { readonly is: 'asking' | 'away' | 'plain' | 'private' | 'certificate' | 'here' | 'ready' }
  | { readonly is: 'paired'; readonly name: string };

/** What the look needs of the browser. */
export interface Browser {
  readonly isSecure: boolean;
  /** Null where the browser has none at this address. */
  readonly workers: Pick<ServiceWorkerContainer, 'register'> | null;
  readonly askOwn: () => Promise<Own>;
}

/**
 * A browser registers a service worker only where it took the certificate by itself; a person who went on past the
 * warning gets none. So this tells whether the camp computer is who it says it is, before a secret is sent to it.
 */
export async function lookAtGround(browser: Browser): Promise<Ground> {
  let own: Own;
  try {
    own = await browser.askOwn();
  } catch {
    return { is: 'away' };
  }
  if (own.isHere) return { is: 'here' };
  if (!browser.isSecure) return { is: 'plain' };
  if (browser.workers === null) return { is: 'private' };
  try {
    await browser.workers.register('/sw.js', { updateViaCache: 'none' });
  } catch (error) {
    // SecurityError is the certificate; a script that can't be fetched is the network.
    return { is: error instanceof DOMException && error.name === 'SecurityError' ? 'certificate' : 'away' };
  }
  return own.isPaired ? { is: 'paired', name: own.name ?? '' } : { is: 'ready' };
}

export const browserHere = (): Browser => ({
  isSecure: globalThis.isSecureContext,
  workers: 'serviceWorker' in navigator ? navigator.serviceWorker : null,
  askOwn,
});

/** What the camp computer's code carries behind the #. */
export function offerIn(hash: string): {
  readonly token: string | null;
  readonly fingerprint: string | null;
} {
  const read = new URLSearchParams(hash.replace(/^#/, ''));
  const token = read.get('token');
  const authority = read.get('authority');
  return {
    token: token !== null && /^[\w-]{20,80}$/.test(token) ? token : null,
    fingerprint:
      authority !== null && /^[0-9A-F]{64}$/.test(authority) ? authority.replace(/(..)(?=.)/g, '$1:') : null,
  };
}
