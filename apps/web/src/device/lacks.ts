import type { Persistence } from '@firnbook/storage/browser';

/** What decides whether a browser keeps the record well. */
export interface Footing {
  readonly isSecure: boolean;
  /** Null while the browser hasn't said yet. */
  readonly persistence: Persistence | null;
  readonly offlineStart: boolean;
  readonly hasLocks: boolean;
}

/** Plain words for everything that is missing, the worst first; empty when nothing is. */
export function lacksOf(footing: Footing): readonly string[] {
  const says: string[] = [];
  if (!footing.isSecure) {
    says.push(
      'This address is plain http: these screens cannot start while the camp computer is off. Open the camp computer by its https address.',
    );
  } else if (!footing.offlineStart) {
    says.push(
      'This browser cannot start these screens while the camp computer is off. Leave private mode, or use another browser.',
    );
  }
  if (footing.persistence === 'refused') {
    says.push(
      'This browser has not promised to keep the record when the disk runs short. Put these screens on the home screen, and keep 2 GB free.',
    );
  }
  if (footing.isSecure && !footing.hasLocks) {
    says.push('This browser cannot keep two tabs apart. Use one tab only.');
  }
  return says;
}
