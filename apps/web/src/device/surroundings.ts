import type { Source, Store } from '@firnbook/journal';
import {
  announce,
  type BrowserAttachments,
  type BrowserSigning,
  type BrowserStore,
  exclusive,
  type Guard,
  listen,
  openBrowserAttachments,
  openBrowserStore,
  openSigning,
  roomGuard,
} from '@firnbook/storage/browser';
import { ownStanding } from '../pair/standing.ts';
import type { Solver } from '../solve/solver.ts';
import { type Camp, reachCamp } from './camp.ts';

/** Everything of the outside world that a book on this device needs; a test gives its own. */
export interface Surroundings extends Source {
  readonly camp: Camp;
  readonly openStore: (campaign: string) => Promise<Store & Pick<BrowserStore, 'copies' | 'putBack'>>;
  readonly openFiles: (campaign: string) => Promise<BrowserAttachments>;
  /** What this browser can sign and check with. Never rejects. */
  readonly signing: () => Promise<BrowserSigning>;
  /** One tab at a time does work under one name. */
  readonly exclusive: <T>(name: string, work: () => Promise<T>) => Promise<T>;
  readonly announce: (campaign: string) => void;
  readonly listen: (campaign: string, hear: () => void) => () => void;
  readonly isVisible: () => boolean;
  /** Watches over the room that this device has left. */
  readonly guard: Pick<Guard, 'room' | 'ballast' | 'triedAt' | 'foresee' | 'lay' | 'subscribe'>;
  readonly solver: Solver;
}

export function browserSurroundings(solver: Solver): Surroundings {
  let signing: Promise<BrowserSigning> | null = null;
  return {
    now: () => Date.now(),
    randomBytes: (length) => crypto.getRandomValues(new Uint8Array(length)),
    camp: reachCamp(ownStanding.ask),
    openStore: (campaign) => openBrowserStore(campaign),
    openFiles: openBrowserAttachments,
    // One key for all campaigns of this browser.
    signing: () => (signing ??= openSigning()),
    exclusive,
    announce,
    listen,
    guard: roomGuard(),
    isVisible: () => document.visibilityState === 'visible',
    solver,
  };
}
