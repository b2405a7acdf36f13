import { trouble } from '../trouble.ts';

/** A browser whose disk fills up can leave a transaction without any event at all; longer than this is silence. */
const silence = 4000;

/**
 * What an IndexedDB operation comes to, or 'unknown fate' when it fails or stays silent.
 *
 * @param what the operation in words, for the one who reads the error
 * @throws StoreTrouble 'disk full' or 'unknown fate'
 */
export async function settled<T>(work: Promise<T>, what: string, where: string): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const quiet = new Promise<never>((_resolve, reject) => {
    timer = setTimeout(() => reject(unknownFate(`${what} stayed silent`, where)), silence);
  });
  try {
    return await Promise.race([work, quiet]);
  } catch (error) {
    if (error instanceof Error && error.name === 'QuotaExceededError')
      throw trouble(
        'disk full',
        'This device has no room left',
        where,
        'Write nothing more here: sync or export now, then free some space.',
        error,
      );
    if (error instanceof Error && error.name === 'StoreTrouble') throw error;
    if (error instanceof Error && error.name === 'VersionError')
      throw trouble(
        'newer version',
        'A newer version of these screens has written here',
        where,
        'Load the page again, or change to the new version.',
        error,
      );
    throw unknownFate(
      `${what} failed: ${error instanceof Error ? error.message : String(error)}`,
      where,
      error,
    );
  } finally {
    clearTimeout(timer);
  }
}

function unknownFate(what: string, where: string, cause?: unknown) {
  return trouble(
    'unknown fate',
    `${what}: whether the entries were kept is unknown`,
    where,
    'Offer the same entries again; they can not be doubled. Sync or export before going on.',
    cause,
  );
}
