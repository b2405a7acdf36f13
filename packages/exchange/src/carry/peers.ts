import { parse } from '@firnbook/journal';
import { type CarryFirst, type CarryPeer, readPeer } from './format.ts';

/** Name of the store's note: whose files were brought here, and what they said they hold. */
export const CARRY_NOTE = 'carry-peers';

const MOST = 50;

/** The one brought last first; empty where there is no note or it can't be read. */
export const readCarryPeers = (note: string | null): readonly CarryPeer[] => {
  if (note === null) return [];
  try {
    const list = parse(note);
    return Array.isArray(list) ? list.map(readPeer).filter((peer) => peer !== null) : [];
  } catch {
    return [];
  }
};

/**
 * The note with one more. What a device said last is believed, also where its clock says that it is older: a copy
 * that was set back holds less than before.
 */
export const rememberPeer = (note: string | null, first: CarryFirst): string => {
  const { device, deviceName, madeAt, have, wants } = first;
  const others = readCarryPeers(note).filter((peer) => peer.device !== device);
  return JSON.stringify([{ device, deviceName, madeAt, have, wants }, ...others].slice(0, MOST));
};
