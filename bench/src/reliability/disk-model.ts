import type { Random } from '@firnbook/science/random';
import type { Operation } from './trace.ts';

/** What a power cut may do to writes that no flush had covered yet. */
export const damages = ['all lost', 'all kept', 'some kept', 'torn sectors', 'reordered sectors'] as const;
type Damage = (typeof damages)[number];

type Change = Extract<Operation, { readonly do: 'write' | 'cut' }>;

interface FileState {
  /** As of its last flush. */
  durable: Uint8Array;
  /** Since then, in order. */
  pending: Change[];
}

/** Files as a disk holds them: what was flushed stays, what was not is at the mercy of the moment. */
export interface DiskModel {
  apply(operation: Operation): void;
  /** Files after a power cut now. */
  afterCut(damage: Damage, random: Random): ReadonlyMap<string, Uint8Array>;
  /** Whether anything is written that no flush covers. */
  hasPending(): boolean;
}

const sectorBytes = 512;

/**
 * Names of files count as durable at once (journaling file systems order them; a removed one could come back, which
 * SQLite's own checks of the log's header cover).
 */
export function createDiskModel(): DiskModel {
  const files = new Map<string, FileState>();
  const stateOf = (file: string): FileState => {
    let state = files.get(file);
    if (state === undefined) files.set(file, (state = { durable: new Uint8Array(0), pending: [] }));
    return state;
  };
  return {
    apply(operation) {
      if (operation.do === 'write' || operation.do === 'cut') stateOf(operation.file).pending.push(operation);
      else if (operation.do === 'remove') files.delete(operation.file);
      else if (operation.do === 'failed flush') stateOf(operation.file).pending = [];
      else if (operation.do === 'flush') {
        const state = stateOf(operation.file);
        state.durable = changed(state.durable, state.pending);
        state.pending = [];
      }
    },
    hasPending: () => [...files.values()].some(({ pending }) => pending.length > 0),
    afterCut(damage, random) {
      const images = new Map<string, Uint8Array>();
      for (const [file, { durable, pending }] of files)
        images.set(file, changed(durable, survivors(pending, damage, random)));
      return images;
    },
  };
}

function survivors(pending: readonly Change[], damage: Damage, random: Random): readonly Change[] {
  if (damage === 'all lost') return [];
  if (damage === 'all kept') return pending;
  if (damage === 'some kept') return pending.filter(() => random.uniform() < 0.5);
  const sectors = pending.flatMap((change) => sectorsOf(change));
  if (damage === 'torn sectors')
    return sectors
      .filter(() => random.uniform() < 0.7)
      .map((change) => (change.do === 'write' && random.uniform() < 0.1 ? garbage(change, random) : change));
  // later ones arrive, earlier ones don't: each sector for itself
  const first = Math.floor(random.uniform() * (sectors.length + 1));
  return sectors.filter((_, i) => i >= first || random.uniform() < 0.3);
}

function sectorsOf(change: Change): readonly Change[] {
  if (change.do === 'cut') return [change];
  const parts: Change[] = [];
  for (let start = 0; start < change.bytes.length; ) {
    const at = change.at + start;
    const end = Math.min(change.bytes.length, start + sectorBytes - (at % sectorBytes));
    parts.push({ ...change, at, bytes: change.bytes.subarray(start, end) });
    start = end;
  }
  return parts;
}

function garbage(change: Extract<Change, { readonly do: 'write' }>, random: Random): Change {
  return { ...change, bytes: change.bytes.map(() => Math.floor(random.uniform() * 256)) };
}

function changed(durable: Uint8Array, changes: readonly Change[]): Uint8Array {
  if (changes.length === 0) return durable;
  let length = durable.length;
  let most = length;
  for (const change of changes) {
    length = change.do === 'cut' ? change.length : Math.max(length, change.at + change.bytes.length);
    most = Math.max(most, length);
  }
  const image = new Uint8Array(most);
  image.set(durable);
  let end = durable.length;
  for (const change of changes) {
    if (change.do === 'cut') {
      if (change.length < end) image.fill(0, change.length, end);
      end = change.length;
    } else {
      image.set(change.bytes, change.at);
      end = Math.max(end, change.at + change.bytes.length);
    }
  }
  return image.subarray(0, end);
}
