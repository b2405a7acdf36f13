import { TableError } from '@firnbook/exchange';
import { DepthInputError } from '@firnbook/science/depth';
import { DepthScaleError } from '@firnbook/science/depth-scales';
import { QuantityError } from '@firnbook/science/quantity-error';
import { isTrouble } from '@firnbook/storage/sqlite';

/** The command could not be done: what is wrong, where, and what to do. */
export class CommandError extends Error {
  readonly what: string;
  readonly where: string;
  readonly mend: string;

  constructor(what: string, where: string, mend: string) {
    super(`${where}: ${what}. ${mend}`);
    this.name = 'CommandError';
    this.what = what;
    this.where = where;
    this.mend = mend;
  }
}

const systemWords: Readonly<Record<string, readonly [what: string, mend: string]>> = {
  ENOENT: ['there is no such file or folder', 'Check the name and the folder you are in.'],
  EACCES: ['it may not be read or written', 'Change its rights, or choose another place.'],
  EPERM: ['it may not be read or written', 'Change its rights, or choose another place.'],
  EISDIR: ['this is a folder, not a file', 'Name the file in it.'],
  ENOTDIR: ['a part of this path is a file, not a folder', 'Choose another folder.'],
  EEXIST: ['a file is there already where a folder is needed', 'Choose another folder.'],
  ENOSPC: ['the disk is full', 'Free some space; nothing was left half-written.'],
  EROFS: ['this disk can only be read', 'Choose another place.'],
};

/** One complaint for the person, or null for a fault of the program itself. */
export const complaintOf = (error: unknown): string | null => {
  if (error instanceof TableError || error instanceof CommandError) return error.message;
  if (error instanceof QuantityError) return `${error.message}.`;
  if (error instanceof DepthScaleError) return error.message;
  if (error instanceof DepthInputError) return `${error.message}.`;
  if (isTrouble(error)) return `${error.where}: ${error.what}. ${error.mend}`;
  const { code, path } = error as NodeJS.ErrnoException;
  const words = code === undefined ? undefined : systemWords[code];
  return words === undefined ? null : `${path ?? 'the file'}: ${words[0]}. ${words[1]}`;
};
