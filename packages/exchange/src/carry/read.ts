import { type Json, parse, type Sealed } from '@firnbook/journal';
import { type CarryFirst, LINE_LIMIT, type Piece, readFirst, readPiece } from './format.ts';
import { runningHash } from './running-hash.ts';
import type { CarryProblem } from './words.ts';

/** What one line of a file turned out to be; the first one is always `first`. */
export type CarryLine =
  | { readonly is: 'first'; readonly first: CarryFirst }
  | { readonly is: 'entry'; readonly line: number; readonly sealed: Sealed }
  | { readonly is: 'piece'; readonly line: number; readonly piece: Piece }
  | { readonly is: 'bad'; readonly line: number; readonly problem: CarryProblem };

/** Where a file stops being the one that was written. */
export interface Torn {
  /** The last line that was read, from 1. */
  readonly line: number;
  /** Its end is missing, or something before the end is not as it was written. */
  readonly how: 'no end' | 'changed';
}

/** The file is none of ours, or of a later version: nothing of it is taken. */
export class CarryFileError extends Error {
  readonly problem: CarryProblem;

  constructor(problem: CarryProblem) {
    super(`Not a file that can be brought in: ${problem.key}.`);
    this.name = 'CarryFileError';
    this.problem = problem;
  }
}

/** Only for tests, which break it: whether the digest in the last line is that of what came before. */
export type EndRule = (said: string, got: string) => boolean;

/**
 * Reads a file line by line, whatever it holds. Lines that are no good are named and passed over; each good one stands
 * for itself, as entries and attachments carry their own hashes.
 *
 * @returns where the file is torn; null where its last line says that it is whole
 * @throws CarryFileError where the first line is not that of such a file
 */
export async function* readCarryLines(
  chunks: AsyncIterable<Uint8Array>,
  isEnd: EndRule = (said, got) => said === got,
): AsyncGenerator<CarryLine, Torn | null, void> {
  const hash = runningHash();
  let number = 0;
  let isWhole: boolean | null = null;
  for await (const { bytes, hasFeed } of linesOf(chunks)) {
    number += 1;
    const text = bytes === null ? null : decoded(bytes);
    if (number === 1) yield { is: 'first', first: firstOf(text) };
    else if (isWhole !== null) yield { is: 'bad', line: number, problem: { key: 'behind', values: {} } };
    else {
      const read = bytes === null ? 'long' : lineOf(text);
      if (read === 'long' || typeof read === 'string')
        yield { is: 'bad', line: number, problem: { key: read, values: {} } };
      else if ('end' in read) isWhole = isEnd(String(read.end), hash.soFar());
      else if ('sealed' in read) yield { is: 'entry', line: number, sealed: read.sealed };
      else yield { is: 'piece', line: number, piece: read.piece };
    }
    // A line too long to be held is none that was written: its digest comes out as another one.
    hash.add(bytes ?? FEED);
    if (hasFeed) hash.add(FEED);
  }
  if (number === 0) throw new CarryFileError({ key: 'strange', values: {} });
  if (isWhole === null) return { line: number, how: 'no end' };
  return isWhole ? null : { line: number, how: 'changed' };
}

const FEED = Uint8Array.of(0x0a);

interface Line {
  /** Null where the line was too long to be kept. */
  readonly bytes: Uint8Array | null;
  readonly hasFeed: boolean;
}

async function* linesOf(chunks: AsyncIterable<Uint8Array>): AsyncGenerator<Line, void, void> {
  let parts: Uint8Array[] = [];
  let length = 0;
  const line = (hasFeed: boolean): Line => {
    const bytes = length > LINE_LIMIT ? null : joined(parts, length);
    parts = [];
    length = 0;
    return { bytes, hasFeed };
  };
  const more = (part: Uint8Array) => {
    length += part.length;
    // What is too long already is not held, however much of it comes.
    if (length <= LINE_LIMIT) parts.push(part);
    else parts = [];
  };
  for await (const chunk of chunks) {
    let start = 0;
    for (let at = chunk.indexOf(0x0a); at !== -1; at = chunk.indexOf(0x0a, start)) {
      more(chunk.subarray(start, at));
      yield line(true);
      start = at + 1;
    }
    if (start < chunk.length) more(chunk.slice(start));
  }
  if (length > 0) yield line(false);
}

const joined = (parts: readonly Uint8Array[], length: number): Uint8Array => {
  const [only] = parts;
  if (only !== undefined && parts.length === 1) return only;
  const bytes = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
};

const decoder = new TextDecoder('utf-8', { fatal: true });

const decoded = (bytes: Uint8Array): string | null => {
  try {
    return decoder.decode(bytes);
  } catch {
    return null;
  }
};

const firstOf = (text: string | null): CarryFirst => {
  const read = text === null ? null : readFirst(text);
  if (read?.ok) return read.first;
  throw new CarryFileError(
    read?.problem === 'newer'
      ? { key: 'newer', values: { format: read.format } }
      : { key: 'strange', values: {} },
  );
};

type Read = { readonly sealed: Sealed } | { readonly piece: Piece } | { readonly end: unknown };

/** A line behind the first one; the key of what is wrong with it where it is none. */
const lineOf = (text: string | null): Read | 'garbled' | 'unknown' | 'piece' => {
  let value: Json;
  try {
    value = parse(text ?? '');
  } catch {
    return 'garbled';
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return 'unknown';
  const line = value as { readonly [name: string]: Json | undefined };
  // Its form and both hashes are the journal's to check.
  if (line.entry !== undefined) return { sealed: line.entry as unknown as Sealed };
  if (line.attachment !== undefined) {
    const piece = readPiece(line);
    return piece === null ? 'piece' : { piece };
  }
  if (line.end !== undefined) return { end: (line.end as { sha256?: unknown } | null)?.sha256 };
  return 'unknown';
};
