import { parse } from './canonical.ts';
import type { Have } from './coverage.ts';
import { readHave } from './wire.ts';

/** What a peer last told: the ground for the tick "on camp computer". */
export interface PeerNews {
  readonly epoch: string;
  readonly have: Have;
  /** Under which it said so: for the next exchange of this process, not noted. */
  readonly mark?: string;
  /** Milliseconds by which this device's clock was ahead of the peer's. */
  readonly clockOff: number;
  /** This device's wall clock then. */
  readonly at: number;
}

/** Name of the store's note. */
export const PEERS_NOTE = 'peers';

export function writePeers(peers: ReadonlyMap<string, PeerNews>): string {
  const noted = [...peers].map(([name, { epoch, have, clockOff, at }]) => [
    name,
    { epoch, have, clockOff, at },
  ]);
  return JSON.stringify(Object.fromEntries(noted));
}

/** Empty where there is no note or it cannot be read: ticks then wait for the next exchange. */
export function readPeers(text: string | null): Map<string, PeerNews> {
  const peers = new Map<string, PeerNews>();
  if (text === null) return peers;
  try {
    for (const [name, value] of Object.entries(parse(text) as Record<string, unknown>)) {
      const { epoch, have, clockOff, at } = value as Record<string, unknown>;
      if (typeof epoch !== 'string' || typeof clockOff !== 'number' || typeof at !== 'number') continue;
      peers.set(name, { epoch, have: readHave(have), clockOff, at });
    }
  } catch {
    return new Map();
  }
  return peers;
}
