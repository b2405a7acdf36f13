import { TableError } from './trouble.ts';

export type Encoding = 'UTF-8' | 'UTF-16LE' | 'UTF-16BE' | 'Windows-1252';

/**
 * Text of a file of unknown origin: by its byte order mark (Unicode 16, section 23.8), else UTF-16 where every
 * other byte is 0, else UTF-8 where it is well formed, else Windows-1252 (Latin-1 with the printable extras).
 * Line ends CR LF and the old Macintosh's CR become LF.
 *
 * @throws TableError for bytes that are no text
 */
export const decodeText = (
  bytes: Uint8Array,
  file: string,
): { readonly text: string; readonly encoding: Encoding } => {
  const encoding = encodingOf(bytes);
  const label = {
    'UTF-8': 'utf-8',
    'UTF-16LE': 'utf-16le',
    'UTF-16BE': 'utf-16be',
    'Windows-1252': 'latin1',
  };
  const text = new TextDecoder(label[encoding]).decode(bytes).replace(/\r\n?/g, '\n');
  const zero = text.indexOf('\0');
  if (zero >= 0)
    throw new TableError(
      'this is not a text file',
      { file, line: text.slice(0, zero).split('\n').length },
      'Save the table as CSV (comma separated values, UTF-8) and use that file.',
    );
  return { text, encoding };
};

/** By its byte order mark, else by what stands in it. */
export const encodingOf = (bytes: Uint8Array): Encoding => {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'UTF-16LE';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'UTF-16BE';
  const start = bytes.subarray(0, 1000);
  if (start.length >= 4) {
    const zeros = [0, 0];
    for (let i = 0; i < start.length; i++) if (start[i] === 0) zeros[i % 2]! += 1;
    if (zeros[1]! > 0.4 * start.length && zeros[0] === 0) return 'UTF-16LE';
    if (zeros[0]! > 0.4 * start.length && zeros[1] === 0) return 'UTF-16BE';
  }
  return isUtf8(bytes) ? 'UTF-8' : 'Windows-1252';
};

/** Bytes decoded at a time, so that a large file is not held twice. */
const chunk = 2 ** 20;

const isUtf8 = (bytes: Uint8Array): boolean => {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  try {
    for (let at = 0; at < bytes.length; at += chunk)
      decoder.decode(bytes.subarray(at, at + chunk), { stream: at + chunk < bytes.length });
    return true;
  } catch {
    return false;
  }
};
