import { createReadStream } from 'node:fs';
import { hostname } from 'node:os';
import {
  CarryFileError,
  type CarryFirst,
  type CarryTaken,
  carryProblemWords,
  readCarryLines,
  type Torn,
} from '@firnbook/exchange/carry';
import { CommandError } from './refusal.ts';

/** A file that was carried here, as the disk gives it. */
export const chunksOf = (file: string): AsyncIterable<Uint8Array> =>
  createReadStream(file, { highWaterMark: 1024 * 1024 });

/** What a command does with such a file; where it is none, that is said in words. */
export const onCarried = async <T>(file: string, work: () => Promise<T>): Promise<T> => {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof CarryFileError)) throw error;
    throw new CommandError(
      carryProblemWords(error.problem).replace(/\.$/, ''),
      file,
      'Name a file that firnbook carry or the screens of a tablet wrote.',
    );
  }
};

/** Reads all of a file: whose it is, and where it is torn. */
export const lookInto = (file: string): Promise<{ readonly first: CarryFirst; readonly torn: Torn | null }> =>
  onCarried(file, async () => {
    const lines = readCarryLines(chunksOf(file));
    let first: CarryFirst | null = null;
    let next = await lines.next();
    for (; next.done !== true; next = await lines.next())
      if (next.value.is === 'first') first = next.value.first;
    return { first: first!, torn: next.value };
  });

export const tornWords = ({ line, how }: Torn): string =>
  how === 'no end'
    ? `The file is torn: it ends with line ${line}, and its last line is missing.`
    : 'Something in the file is not as it was written.';

export const counted = (count: number, one: string, many: string): string =>
  `${count} ${count === 1 ? one : many}`;

/** Lines that were passed over, each with its reason. */
export const refusedWords = ({ count, shown }: CarryTaken['refused']): string => {
  if (count === 0) return '';
  const lines = shown.map(({ line, problem }) => `  line ${line}: ${carryProblemWords(problem)}\n`);
  const rest = count > shown.length ? `  and ${count - shown.length} more\n` : '';
  return `${counted(count, 'line is', 'lines are')} refused:\n${lines.join('')}${rest}`;
};

/** Under what name other devices see what the command line writes. */
export const nameHere = (): string => `camp computer (${hostname()})`;
