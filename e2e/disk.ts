import { spawnSync } from 'node:child_process';
import {
  closeSync,
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  rmSync,
  statfsSync,
  writeSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A small ext4 of its own in a file: a tablet's disk that can be filled, and copied as a power cut leaves it. */
export interface SmallDisk {
  /** Where it is mounted. */
  readonly path: string;
  /** Bytes that a program may still write. */
  free(): number;
  /** Another program takes all the room but so many bytes, in a file of its own. */
  fill(leave?: number): void;
  /** The other program gives its room back. */
  empty(): void;
  /** What the disk holds at this moment, as a disk of its own: the file system replays its journal there. */
  cut(): SmallDisk;
  remove(): void;
}

const ran = (command: string, ...args: readonly string[]): boolean =>
  spawnSync(command, args, { stdio: 'ignore' }).status === 0;

/** Whether this machine lets us mount the image of a disk: root, and a kernel with loop devices. */
export function canMount(): boolean {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return false;
  try {
    makeDisk(16).remove();
    return true;
  } catch {
    return false;
  }
}

export function makeDisk(megabytes: number): SmallDisk {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-disk-'));
  const image = join(folder, 'disk.img');
  // No blocks are kept back for root: the test runs as root, a browser on a tablet does not.
  if (!ran('truncate', '-s', `${megabytes}M`, image) || !ran('mkfs.ext4', '-q', '-F', '-m', '0', image)) {
    rmSync(folder, { recursive: true, force: true });
    throw new Error('No image of a disk could be made.');
  }
  return mounted(folder, image);
}

function mounted(folder: string, image: string): SmallDisk {
  const path = join(folder, 'disk');
  mkdirSync(path);
  if (!ran('mount', '-o', 'loop', image, path)) {
    rmSync(folder, { recursive: true, force: true });
    throw new Error('The image of a disk could not be mounted.');
  }
  const others = join(path, 'photographs-of-another-program');
  const free = () => {
    const { bavail, bsize } = statfsSync(path);
    return bavail * bsize;
  };
  const fillWith = (piece: Buffer, file: number, leave: number): void => {
    try {
      while (free() - leave >= piece.length) writeSync(file, piece);
    } catch (error) {
      // What is free is counted a little differently by those who write: smaller pieces may still find room.
      if ((error as NodeJS.ErrnoException).code !== 'ENOSPC') throw error;
    }
  };
  return {
    path,
    free,
    fill(leave = 0) {
      const file = openSync(others, 'a');
      try {
        for (const size of [1 << 20, 1 << 16, 1 << 12]) fillWith(Buffer.alloc(size, 0x5a), file, leave);
      } finally {
        closeSync(file);
      }
    },
    empty: () => rmSync(others, { force: true }),
    cut() {
      const next = mkdtempSync(join(tmpdir(), 'firnbook-disk-'));
      const copy = join(next, 'disk.img');
      // The kernel goes on writing back by itself: a copy that it wrote into meanwhile is no state of any moment.
      do copyFileSync(image, copy);
      while (!ran('cmp', '-s', image, copy));
      return mounted(next, copy);
    },
    remove() {
      ran('umount', path) || ran('umount', '-l', path);
      rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
    },
  };
}
