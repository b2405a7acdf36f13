import { createContext, useContext, useSyncExternalStore } from 'react';
import type { BookHandle, CampaignsHandle, DeviceHandle } from './book.ts';
import type { Shelf } from './shelf.ts';

/** Filled by provider.tsx. */
export const ShelfContext = createContext<Shelf | null>(null);

/** The book of one campaign: opened at the first call, the same handle until something changes. */
export function useBook(campaign: string): BookHandle {
  const book = useShelf().book(campaign);
  return useSyncExternalStore(book.subscribe, book.snapshot);
}

export function useCampaigns(): CampaignsHandle {
  const shelf = useShelf();
  return useSyncExternalStore(shelf.subscribe, shelf.campaigns);
}

export function useDevice(): DeviceHandle {
  const shelf = useShelf();
  return useSyncExternalStore(shelf.subscribe, shelf.device);
}

function useShelf(): Shelf {
  const shelf = useContext(ShelfContext);
  if (shelf === null) throw new Error('Screens stand inside <DeviceProvider>.');
  return shelf;
}
