import type { FieldNames } from '../columns.ts';

/** A column that a file of readings may have. */
export const field = (header: string, isNeeded: boolean, ...words: string[]): FieldNames => ({
  header,
  words,
  isNeeded,
});

export const runWords = ['run', 'run no', 'run nr', 'run number', 'run #', 'run id'];
