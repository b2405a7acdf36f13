import { closeSync, fsyncSync, mkdirSync, openSync, rmSync, statfsSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { trouble } from '../trouble.ts';
import { readPieces } from './read-back.ts';

export interface CapacityTest {
  /** Written and read back, byte for byte. */
  readonly bytes: number;
  readonly isPastCache: boolean;
}

/** How far a test is. */
export interface CapacityStep {
  readonly doing: 'writing' | 'reading';
  readonly bytes: number;
  readonly of: number;
}

const blockBytes = 1024 * 1024;
const fileBlocks = 64;
/** What other files on the stick may need meanwhile. */
const spareBytes = 8 * 1024 * 1024;

/**
 * Fills a stick with numbers that nobody can guess, reads them back and takes them away again. Sticks are sold that
 * name more room than they have and write the rest nowhere, or over what was there: only filling finds them, and only
 * as far as it fills.
 *
 * @param most bytes to write; all free room less a little where it is larger
 * @param seed makes the numbers of this test unlike those of another
 * @param step told how far it is, in bytes; what it throws ends the test, and goes out
 * @param read how the medium is read back
 * @throws StoreTrouble 'damaged' where something else comes back, 'disk full' where there is no room to test
 */
export function testCapacity(
  folder: string,
  most: number,
  seed: number,
  step: (far: CapacityStep) => void = () => undefined,
  read: typeof readPieces = readPieces,
): CapacityTest {
  const { bavail, bsize } = statfsSync(folder);
  const blocks = Math.floor(Math.min(most, bavail * bsize - spareBytes) / blockBytes);
  if (blocks < 1)
    throw trouble(
      'disk full',
      'There is no room to test this stick',
      folder,
      'Free 9 MB of it, or take another.',
    );
  const place = join(folder, 'firnbook-capacity-test');
  rmSync(place, { recursive: true, force: true });
  mkdirSync(place);
  try {
    const files = Math.ceil(blocks / fileBlocks);
    const nameOf = (file: number) => join(place, String(file).padStart(6, '0'));
    const blocksOf = (file: number) => Math.min(fileBlocks, blocks - file * fileBlocks);
    const of = blocks * blockBytes;
    for (let file = 0; file < files; file += 1)
      writeFileOf(nameOf(file), seed, file * fileBlocks, blocksOf(file), folder, (block) =>
        step({ doing: 'writing', bytes: block * blockBytes, of }),
      );
    let isPastCache = true;
    for (let file = 0; file < files; file += 1) {
      let block = file * fileBlocks;
      const past = read(nameOf(file), (piece) => {
        if (Buffer.compare(piece, blockOf(seed, block)) !== 0)
          throw trouble(
            'damaged',
            `What was written at ${block} MB came back otherwise`,
            folder,
            'This stick cannot be trusted with the record: take another one.',
          );
        block += 1;
        step({ doing: 'reading', bytes: block * blockBytes, of });
      });
      if (block !== file * fileBlocks + blocksOf(file))
        throw trouble('damaged', 'A file of the test came back shorter', folder, 'Take another stick.');
      isPastCache &&= past;
    }
    return { bytes: blocks * blockBytes, isPastCache };
  } finally {
    rmSync(place, { recursive: true, force: true });
  }
}

function writeFileOf(
  file: string,
  seed: number,
  first: number,
  count: number,
  folder: string,
  wrote: (block: number) => void,
): void {
  const handle = openSync(file, 'wx');
  /** Only what the stick itself refuses is its fault. */
  const onStick = (work: () => void) => {
    try {
      work();
    } catch (error) {
      throw trouble(
        'damaged',
        `The stick took only ${first} MB of what it says to have free`,
        folder,
        'Take another stick.',
        error,
      );
    }
  };
  try {
    for (let block = first; block < first + count; block += 1) {
      const bytes = blockOf(seed, block);
      onStick(() => {
        for (let done = 0; done < bytes.length; ) done += writeSync(handle, bytes, done);
      });
      wrote(block + 1);
    }
    onStick(() => fsyncSync(handle));
  } finally {
    closeSync(handle);
  }
}

/** One block of numbers (xorshift, 32 bits) that depend on the test and on the block's place. */
function blockOf(seed: number, block: number): Buffer {
  const words = new Uint32Array(blockBytes / 4);
  let x = (Math.imul(seed ^ 0x9e3779b9, 0x85ebca6b) ^ Math.imul(block + 1, 0xc2b2ae35)) >>> 0 || 1;
  for (let i = 0; i < words.length; i += 1) {
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    words[i] = x;
  }
  return Buffer.from(words.buffer);
}
