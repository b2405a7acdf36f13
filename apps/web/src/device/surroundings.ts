import type { Source, Store } from '@firnbook/journal';
import {
  announce,
  type BrowserAttachments,
  type BrowserStore,
  exclusive,
  listen,
  openBrowserAttachments,
  openBrowserStore,
} from '@firnbook/storage/browser';
import type { Solver } from '../solve/solver.ts';
import { type Camp, reachCamp } from './camp.ts';

/** Everything of the outside world that a book on this device needs; a test gives its own. */
export interface Surroundings extends Source {
  readonly camp: Camp;
  readonly openStore: (campaign: string) => Promise<Store & Pick<BrowserStore, 'copies' | 'putBack'>>;
  readonly openFiles: (campaign: string) => Promise<BrowserAttachments>;
  /** One tab at a time does work under one name. */
  readonly exclusive: <T>(name: string, work: () => Promise<T>) => Promise<T>;
  readonly announce: (campaign: string) => void;
  readonly listen: (campaign: string, hear: () => void) => () => void;
  readonly isVisible: () => boolean;
  readonly solver: Solver;
}

export function browserSurroundings(solver: Solver): Surroundings {
  return {
    now: () => Date.now(),
    randomBytes: (length) => crypto.getRandomValues(new Uint8Array(length)),
    camp: reachCamp((...args) => fetch(...args)),
    openStore: (campaign) => openBrowserStore(campaign),
    openFiles: openBrowserAttachments,
    exclusive,
    announce,
    listen,
    isVisible: () => document.visibilityState === 'visible',
    solver,
  };
}
