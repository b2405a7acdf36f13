import { isTrouble, type StoreTrouble, trouble } from '../trouble.ts';

const full = ['SQLITE_FULL', 'SQLITE_IOERR_SHMSIZE', 'ENOSPC', 'EDQUOT'];
const inTheWay = ['SQLITE_BUSY', 'SQLITE_CANTOPEN', 'SQLITE_IOERR_SHMOPEN', 'SQLITE_READONLY'];

/** Says what an error of the database or the disk means for what was under way. */
export function ioTrouble(error: unknown, file: string): StoreTrouble {
  if (isTrouble(error)) return error;
  const code = codeOf(error);
  if (full.includes(code))
    return trouble(
      'disk full',
      'The disk is full',
      file,
      'Free some space; nothing that was saved is lost.',
      error,
    );
  return trouble(
    'unknown fate',
    `The disk answered ${code || String(error)}: whether the entries were kept is unknown`,
    file,
    'Offer the same entries again; they can not be doubled.',
    error,
  );
}

/** An error that says nothing about the file's content: no room, no right, somebody else has it. */
export function isCircumstance(error: unknown): boolean {
  const code = codeOf(error);
  return full.includes(code) || inTheWay.some((prefix) => code.startsWith(prefix));
}

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : '';
}
