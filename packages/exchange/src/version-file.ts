import { isWhole } from '@firnbook/campaign';
import { canonical } from '@firnbook/journal';
import type { DepthVersion } from '@firnbook/science/depth-scales';
import { decodeText } from './decode.ts';
import type { NamedBytes } from './named-bytes.ts';
import { TableError } from './trouble.ts';

/** A version, and what people called the things in it. */
export interface VersionFile {
  readonly version: DepthVersion;
  /** By id. */
  readonly names: ReadonlyMap<string, string>;
}

/** First key of the file: what it is, and which way of writing it. */
const FORMAT = 'firnbook depth version 1';

/**
 * A version of a hole's depths as a file: canonical JSON (RFC 8785), UTF-8. It holds what came out, the solver, the
 * assumptions, the readings, the names of the things in them, the ids of the entries that say so and the digest of the
 * readings; metres throughout.
 */
export const writeVersion = ({ version, names }: VersionFile): string =>
  `${canonical({ format: FORMAT, names: Object.fromEntries(names), ...version })}\n`;

/** Lists and texts that every version has. */
const lists = ['runs', 'pieces', 'entries'] as const;
const texts = ['name', 'hole', 'solver', 'digest'] as const;

/**
 * Reads what `writeVersion` wrote.
 *
 * @throws TableError where it is something else, a part is missing, or the readings are not those of the digest
 */
export const readVersion = ({ name, bytes }: NamedBytes): VersionFile => {
  const { text } = decodeText(bytes, name);
  const wrong = (what: string, mend: string) => new TableError(what, { file: name }, mend);
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch {
    throw wrong('this is no version of depths: it is not JSON', 'Name a version.json that firnbook wrote.');
  }
  if (typeof read !== 'object' || read === null || (read as { format?: unknown }).format !== FORMAT)
    throw wrong(
      `this is no version of depths: it does not begin as "${FORMAT}"`,
      'Name a version.json that firnbook wrote; a newer one needs a newer firnbook.',
    );
  const { format: _, names = {}, ...version } = read as { readonly [key: string]: unknown };
  const readings = version.readings as Partial<DepthVersion['readings']> | undefined;
  const isComplete =
    lists.every((list) => Array.isArray(version[list])) &&
    texts.every((one) => typeof version[one] === 'string') &&
    typeof version.assumptions === 'object' &&
    version.assumptions !== null &&
    Array.isArray(readings?.runs) &&
    Array.isArray(readings.pieces) &&
    Array.isArray(readings.soundings);
  if (!isComplete) throw wrong('a part of the version is missing', 'Copy the file again.');
  const whole = version as unknown as DepthVersion;
  if (!isWhole(whole))
    throw wrong(
      'the readings in it are not those that it was solved from: their digest is another one',
      'Copy the file again; if it was edited, correct the readings in the book instead.',
    );
  return {
    version: whole,
    names: new Map(Object.entries(names as object).map(([id, word]) => [id, String(word)])),
  };
};
