import { type UnzipFileInfo, unzipSync } from 'fflate';
import { TableError } from '../trouble.ts';
import { limits, tooLarge } from './limits.ts';

/** Parts of a workbook by path. */
export interface Archive {
  /** Text of a part; null where there is none. Unpacked when asked for. */
  text(path: string): string | null;
}

const notNeeded = /\.(?:png|jpe?g|gif|emf|wmf|bin|vml|tiff?|bmp|svg)$/i;

/**
 * Opens the packed file that an XLSX is. Sizes are looked at in its table of contents before anything is unpacked,
 * and unpacking stops at the size that the table says.
 *
 * @throws TableError for what is no packed file, or unpacks to more than `limits` allow
 */
export const openArchive = (bytes: Uint8Array, file: string): Archive => {
  let total = 0;
  let count = 0;
  const sizes = new Map<string, number>();
  try {
    unzipSync(bytes, {
      filter: (part: UnzipFileInfo) => {
        count += 1;
        total += part.originalSize;
        if (count > limits.parts) throw tooLarge(file, `the workbook has more than ${limits.parts} parts`);
        if (total > limits.unpacked)
          throw tooLarge(
            file,
            `the workbook unpacks to more than ${limits.unpacked / 2 ** 20} MB (${part.name})`,
          );
        if (part.originalSize > limits.smallPart && part.originalSize > limits.ratio * part.size)
          throw tooLarge(
            file,
            `${part.name} unpacks to ${Math.round(part.originalSize / part.size)} times its size`,
          );
        sizes.set(part.name, part.originalSize);
        return false;
      },
    });
  } catch (error) {
    if (error instanceof TableError) throw error;
    throw damaged(file);
  }
  return {
    text: (path) => {
      const size = sizes.get(path);
      if (size === undefined || notNeeded.test(path)) return null;
      let found: Uint8Array | undefined;
      try {
        found = unzipSync(bytes, { filter: (part) => part.name === path })[path];
      } catch {
        throw damaged(file);
      }
      // a part that is cut short at the size it was said to have, or ends before
      if (found === undefined || found.length !== size) throw damaged(file);
      return new TextDecoder(encodingOf(found)).decode(found);
    },
  };
};

/** XML 1.0, appendix F: UTF-16 begins with its mark, else UTF-8. */
const encodingOf = (bytes: Uint8Array): string => {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  return 'utf-8';
};

const damaged = (file: string): TableError =>
  new TableError(
    'the workbook is damaged: it cannot be unpacked',
    { file },
    'Copy the file again, or open it in a spreadsheet program and save it anew.',
  );
