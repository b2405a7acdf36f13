import { type ReactNode, useEffect } from 'react';
import { ShelfContext } from './hooks.ts';
import type { Shelf } from './shelf.ts';

/** Lends the device to the screens and wakes it when somebody looks again or the network comes back. */
export function DeviceProvider({ shelf, children }: { readonly shelf: Shelf; readonly children: ReactNode }) {
  useEffect(() => {
    const wake = () => {
      if (document.visibilityState === 'visible') shelf.wake();
    };
    window.addEventListener('online', wake);
    window.addEventListener('focus', wake);
    document.addEventListener('visibilitychange', wake);
    return () => {
      window.removeEventListener('online', wake);
      window.removeEventListener('focus', wake);
      document.removeEventListener('visibilitychange', wake);
    };
  }, [shelf]);
  return <ShelfContext value={shelf}>{children}</ShelfContext>;
}
