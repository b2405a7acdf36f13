import type { Persistence } from '@firnbook/storage/browser';
import type { TextKey } from '../texts/t.ts';

/** What decides whether a browser keeps the record well. */
export interface Footing {
  readonly isSecure: boolean;
  /** Null while the browser hasn't said yet. */
  readonly persistence: Persistence | null;
  readonly offlineStart: boolean;
  readonly hasLocks: boolean;
}

/** Everything that is missing, the worst first; empty when nothing is. */
export function lacksOf(footing: Footing): readonly TextKey[] {
  const says: TextKey[] = [];
  if (!footing.isSecure) {
    says.push('lacks.secure');
  } else if (!footing.offlineStart) {
    says.push('lacks.offline');
  }
  if (footing.persistence === 'refused') {
    says.push('lacks.promise');
  }
  if (footing.isSecure && !footing.hasLocks) {
    says.push('lacks.locks');
  }
  return says;
}
