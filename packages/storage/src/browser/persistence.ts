/**
 * What the browser says about keeping our data when space runs short. 'promised' is no full guarantee: a disk
 * that is really full can take everything. 'absent' is plain http.
 */
export type Persistence = 'promised' | 'refused' | 'absent';

/** Asks once more where it was not promised yet; some browsers show a question, some decide alone. */
export async function askPersistence(): Promise<Persistence> {
  const storage = typeof navigator === 'undefined' ? undefined : navigator.storage;
  if (storage?.persist === undefined) return 'absent';
  try {
    return (await storage.persisted()) || (await storage.persist()) ? 'promised' : 'refused';
  } catch {
    return 'refused';
  }
}
