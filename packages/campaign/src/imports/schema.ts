import type { Kind } from '../kind.ts';

/**
 * A table file whose rows were logged: the file as it came, what its columns were confirmed to mean, and which
 * reader read it. Entries of its rows name this entry. The newest mapping of a layout is proposed when a file of
 * that layout comes again.
 */
export const importKind: Kind = {
  kind: 'import',
  entry: 'import.logged',
  version: 1,
  under: 'campaign',
  calledBy: 'file',
  fields: [
    /** Name of the file, without its folder. */
    { name: 'file', quantity: 'text', most: 255, required: true },
    /** SHA-256 of its bytes, kept beside the journal. */
    { name: 'bytes', quantity: 'attachment', required: true },
    { name: 'hole', quantity: 'thing', of: 'hole' },
    /** Reader and its version: "sheets 1". */
    { name: 'parser', quantity: 'text', most: 40, required: true },
    /** JSON, by headings; exchange/src/sheets/remember.ts says how. */
    { name: 'mapping', quantity: 'text', most: 200_000, required: true },
  ],
};
