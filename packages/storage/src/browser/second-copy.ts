import type { Sealed } from '@firnbook/journal';
import { trouble } from '../trouble.ts';
import type { LineFile } from './line-file.ts';

/** The journal's database, as the second copy sees it. */
export interface FirstCopy {
  readonly epoch: string;
  /** Number of entries held; also the position of the last. */
  count(): Promise<number>;
  loadAfter(count: number, atMost: number): Promise<readonly Sealed[]>;
  /** Strict; what is there already changes nothing. Entries that this journal must not hold are left out. */
  add(batch: readonly Sealed[]): Promise<void>;
}

/** The same entries once more, in a file. */
export interface SecondCopy {
  /** Entries that the database had lost when it was opened, and has again. */
  readonly putBack: number;
  /** Position in the database up to which the file has it. */
  readonly at: number;
  /** Resolves when the file has all that the database has, flushed. */
  follow(): Promise<void>;
}

/** Each line of the file: up to where it follows which life of the database, and the entry that stands there. */
interface Line {
  readonly epoch: string;
  readonly at: number;
  readonly entry?: Sealed;
}

/** Entries that are handed to the file at once. */
const together = 1000;

/**
 * Makes database and file hold the same: what the database lost goes back from the file, what the file has not yet
 * follows from the database. A database that the browser has dropped and made anew has another epoch than the
 * file's last line; one that was set back has fewer entries.
 *
 * The file follows and never leads: it is written after the strict commit, in the order of the database. So one
 * that is killed at any moment holds a beginning of the same chain.
 */
export async function openSecondCopy(first: FirstCopy, file: LineFile, where: string): Promise<SecondCopy> {
  let { line, size } = await file.end();
  let last = readLine(line);
  const putBack =
    last !== null && (last.epoch !== first.epoch || last.at > (await first.count())) ? await restore() : 0;

  async function restore(): Promise<number> {
    const before = await first.count();
    for (let from: number | null = 0; from !== null; ) {
      const page = await file.page(from);
      await first.add(page.lines.flatMap((text) => readLine(text)?.entry ?? []));
      from = page.next;
    }
    const count = await first.count();
    // Another tab may have put it back and said so before this one.
    while (!(await append([{ epoch: first.epoch, at: count }])) && last?.epoch !== first.epoch);
    return count - before;
  }

  /** False where another tab has written meanwhile; the file's end is known again then. */
  async function append(lines: readonly Line[]): Promise<boolean> {
    const grown = await file.add(
      lines.map((one) => JSON.stringify(one)),
      size,
    );
    if (grown !== null) {
      size = grown;
      last = lines.at(-1)!;
      return true;
    }
    ({ line, size } = await file.end());
    last = readLine(line);
    return false;
  }

  async function follow(): Promise<void> {
    for (;;) {
      if (last !== null && last.epoch !== first.epoch)
        throw trouble(
          'unknown fate',
          'The second copy follows another database than the one that is open',
          where,
          'Load the page again: what is missing is put back from the second copy then.',
        );
      const at = last?.at ?? 0;
      const rows = await first.loadAfter(at, together);
      if (rows.length === 0) return;
      const isAdded = await append(
        rows.map(({ hash, head, body, signature }, index) => ({
          epoch: first.epoch,
          at: at + index + 1,
          entry: { hash, head, body, signature },
        })),
      );
      // There were no more when these were read; what another tab has added since is that tab's to follow.
      if (isAdded && rows.length < together) return;
    }
  }

  await follow();
  return {
    putBack,
    get at() {
      return last?.at ?? 0;
    },
    follow,
  };
}

/** Null for a line of another program or another version. */
function readLine(text: string | null): Line | null {
  if (text === null) return null;
  const line = JSON.parse(text) as Partial<Line> | null;
  return typeof line?.epoch === 'string' && typeof line.at === 'number' ? (line as Line) : null;
}
