/**
 * What can go wrong where entries rest, as an Error that says what, where and what to do.
 * 'unknown fate' and 'disk full' are not failures of the entry: offer the same one again, it can't be doubled.
 */
export type TroubleKind =
  | 'closed'
  | 'damaged'
  | 'disk full'
  | 'locked'
  | 'missing'
  | 'newer version'
  | 'refused'
  | 'unknown fate'
  | 'unsafe';

export interface StoreTrouble extends Error {
  readonly trouble: TroubleKind;
  readonly what: string;
  readonly where: string;
  readonly mend: string;
}

export function trouble(
  kind: TroubleKind,
  what: string,
  where: string,
  mend: string,
  cause?: unknown,
): StoreTrouble {
  const error = new Error(`${what} (${where}). ${mend}`, cause === undefined ? {} : { cause });
  error.name = 'StoreTrouble';
  return Object.assign(error, { trouble: kind, what, where, mend });
}

export function isTrouble(error: unknown): error is StoreTrouble {
  return error instanceof Error && 'trouble' in error && 'mend' in error;
}
