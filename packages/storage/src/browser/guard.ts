import { isTrouble, trouble } from '../trouble.ts';
import { askFiles, mayHaveFiles } from './file-thread.ts';
import { settled } from './settled.ts';

/**
 * The room that is left on this device, by our own measure. 'whole': the ballast is laid. 'last': the ballast was
 * given back, and what is written goes into its room. 'none': not even a try of a few megabytes fits. 'stuck': such a
 * try fails, and the browser does not say for want of room; after a full disk Chromium 156 can fail every file until it
 * is closed, all its pages, and opened again. 'absent': this browser or address offers no files. 'unknown' until tried.
 */
export type Room = 'unknown' | 'absent' | 'whole' | 'last' | 'none' | 'stuck';

/**
 * Stops before the disk is full. A browser whose disk is really full erases all that an address holds, whatever it
 * promised, and goes on naming room that is not there; so nobody asks it. Room is what could be written.
 */
export interface Guard {
  readonly room: Room;
  /** Bytes that are set aside. */
  readonly ballast: number;
  /** When room was last tried, ms since 1970; null before. */
  readonly triedAt: number | null;
  /** Before a database is opened: on a full disk that alone can cost it. Gives the ballast back where there is no room. */
  begin(): Promise<void>;
  /** Whether so many bytes more would fit that nobody has to have; changes nothing. True where nobody can tell. */
  hasRoom(bytes: number): Promise<boolean>;
  /** An entry is on its way: tries the room while it is being made, so that its `admit` need not wait. */
  foresee(): void;
  /**
   * Before something is written.
   *
   * @param bytes of it, where it is more than an entry
   * @throws StoreTrouble 'disk full': nothing may be written
   */
  admit(bytes?: number): Promise<void>;
  /** A write failed or stayed silent: gives the ballast back. Never rejects. */
  failed(): Promise<void>;
  /** Lays the ballast where it is not whole; what does not fit is given back. Never rejects. */
  lay(): Promise<void>;
  subscribe(listener: () => void): () => void;
}

/** What the guard does to its two files; see room-files.ts. */
export interface RoomFiles {
  /** @returns the ballast's size now */
  layMore(upTo: number): Promise<number>;
  release(): Promise<void>;
  sing(bytes: number, isFlushed: boolean): Promise<void>;
  probe(bytes: number): Promise<void>;
}

export const ballastBytes = 16 * 2 ** 20;
/** What one entry may need: itself, in both copies, and what the database writes around it. */
const songBytes = 16 * 2 ** 10;
/** Entries after which the canary waits for the disk, and not for the file system's word alone. */
const flushEvery = 20;
/** Milliseconds for which a song that was begun ahead of an entry counts: another program may fill the disk meanwhile. */
const songHolds = 1000;
/** Where the ballast is gone, this must fit before anything is written: a database tidies up in such pieces. */
const probeBytes = 2 * 2 ** 20;
/** Milliseconds after which the ballast is tried again by itself. */
const again = 5 * 60_000;

export function createGuard(files: RoomFiles | null, now: () => number = Date.now): Guard {
  const listeners = new Set<() => void>();
  let room: Room = files === null ? 'absent' : 'unknown';
  let ballast = 0;
  let triedAt: number | null = null;
  let songs = 0;
  let isTriedLater = false;
  let laying: Promise<void> | null = null;
  /** A try that has not ended though its time is up. The next one waits for it: it would only queue behind. */
  let silent: Promise<void> | null = null;
  /** The song of the entry that is on its way. */
  let ahead: { readonly begunAt: number; readonly fits: Promise<boolean> } | null = null;

  const turn = (next: Room) => {
    triedAt = now();
    if (isShort(next)) tryLater();
    if (room === next) return;
    room = next;
    for (const listener of listeners) listener();
  };
  const tryLater = () => {
    if (isTriedLater) return;
    isTriedLater = true;
    setTimeout(() => {
      isTriedLater = false;
      void guard.lay();
    }, again);
  };

  const tried = async (begin: () => Promise<void>): Promise<'fits' | 'none' | 'stuck'> => {
    if (silent !== null && !(await isEnded(silent))) return 'stuck';
    let isOver = false;
    const attempt = begin().finally(() => {
      isOver = true;
      if (silent === attempt) silent = null;
    });
    try {
      await settled(attempt, 'Trying the room', canary);
      return 'fits';
    } catch (error) {
      if (!isOver) silent = attempt;
      return isTrouble(error) && error.trouble === 'disk full' ? 'none' : 'stuck';
    }
  };

  /** Given the same time once more: a slow disk is not a silent one. */
  const isEnded = (attempt: Promise<void>): Promise<boolean> =>
    settled(
      attempt.catch(() => undefined),
      'Trying the room',
      canary,
    ).then(
      () => true,
      () => false,
    );

  const song = async (own: RoomFiles): Promise<boolean> => {
    songs += 1;
    return (await tried(() => own.sing(songBytes, songs % flushEvery === 0))) === 'fits';
  };

  /** Whether so much fits beside what a database needs to tidy up. */
  const probe = (own: RoomFiles, bytes = 0) => tried(() => own.probe(probeBytes + bytes));

  /** The one that was begun ahead, where it is fresh. It counts for one entry. */
  const songNow = (own: RoomFiles): Promise<boolean> => {
    const begun = ahead;
    ahead = null;
    return begun !== null && Math.abs(now() - begun.begunAt) <= songHolds ? begun.fits : song(own);
  };

  /** What is written meanwhile goes into the room that the ballast had. */
  const stop = async (own: RoomFiles) => {
    ballast = 0;
    // Where even this fails, so does the try below.
    await settled(own.release(), 'Giving room back', ballastName).catch(() => undefined);
    const found = await probe(own);
    turn(found === 'fits' ? 'last' : found);
  };

  const layAll = async (own: RoomFiles) => {
    try {
      ballast = await own.layMore(0);
      while (ballast < ballastBytes) ballast = await own.layMore(ballastBytes);
    } catch {
      await stop(own);
      return;
    }
    if ((await probe(own)) === 'fits') turn('whole');
    else await stop(own);
  };

  const guard: Guard = {
    get room() {
      return room;
    },
    get ballast() {
      return ballast;
    },
    get triedAt() {
      return triedAt;
    },
    async begin() {
      if (files === null || room !== 'unknown') return;
      try {
        await settled(files.sing(songBytes, true), 'Trying the room', canary);
        triedAt = now();
      } catch (error) {
        if (isForbidden(error)) turn('absent');
        else await stop(files);
      }
    },
    async hasRoom(bytes) {
      if (files === null || room === 'absent') return true;
      return !isShort(room) && (await probe(files, bytes)) === 'fits';
    },
    foresee() {
      if (files !== null && (room === 'whole' || room === 'unknown'))
        ahead ??= { begunAt: now(), fits: song(files) };
    },
    async admit(bytes = 0) {
      if (files === null || room === 'absent') return;
      if (room === 'whole' || room === 'unknown') {
        if (bytes === 0 && (await songNow(files))) {
          triedAt = now();
          return;
        }
        if (bytes > 0 && (await probe(files, bytes)) === 'fits') return;
        await stop(files);
        throw refusal(room);
      }
      let found = await probe(files, bytes);
      if (found === 'fits') {
        if (isShut(room)) turn('last');
        return;
      }
      // A large file that does not fit leaves room for entries.
      if (bytes > 0) found = await probe(files);
      turn(found === 'fits' ? 'last' : found);
      throw refusal(room);
    },
    async failed() {
      if (files !== null && room !== 'absent') await stop(files);
    },
    lay() {
      if (files === null || room === 'absent' || room === 'whole') return Promise.resolve();
      laying ??= layAll(files).finally(() => {
        laying = null;
      });
      return laying;
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
  return guard;
}

/** A private window has the calls and no files. */
function isForbidden(error: unknown): boolean {
  const cause = error instanceof Error ? (error.cause ?? error) : null;
  return cause instanceof Error && cause.name === 'SecurityError';
}

/** Nothing is written. */
const isShut = (room: Room): boolean => room === 'none' || room === 'stuck';

/** A person is needed: what is saved has to get away from here, and room has to be made. */
export const isShort = (room: Room): boolean => room === 'last' || isShut(room);

function refusal(room: Room) {
  if (room === 'stuck')
    return trouble(
      'disk full',
      'This browser writes no more files here',
      canary,
      'Nothing was written. Sync or export first, free some space, then close the browser and open it again.',
    );
  return trouble(
    'disk full',
    'This device has no room left',
    canary,
    'Nothing was written. Sync or export now, then free some space.',
  );
}

const ballastName = 'firnbook-ballast';
const canary = 'firnbook-canary';

const inBrowser: RoomFiles = {
  layMore: async (size) => (await askFiles({ do: 'lay', name: ballastName, size })) as number,
  release: async () => void (await askFiles({ do: 'let go', name: ballastName })),
  sing: async (count, isFlushed) => void (await askFiles({ do: 'sing', name: canary, count, isFlushed })),
  probe: async (count) => void (await askFiles({ do: 'probe', name: canary, count })),
};

let ours: Guard | null = null;

/** The guard of this address; one for all that is kept here. */
export function roomGuard(): Guard {
  ours ??= createGuard(mayHaveFiles() ? inBrowser : null);
  return ours;
}
