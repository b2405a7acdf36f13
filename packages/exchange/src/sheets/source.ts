import type { Entry } from '@firnbook/journal';

/** Property of an entry's body that says which import wrote it, and from where in the file. */
export const ORIGIN = 'import';

/** Ids of the things that were logged from a file of this name, by whatever device. */
export const importedFrom = (entries: readonly Entry[], file: string): ReadonlySet<string> => {
  const imports = new Set<string>();
  for (const { header, body } of entries) {
    const readings = header.kind === 'import.logged' ? body?.readings : null;
    if (typeof readings !== 'object' || readings === null || Array.isArray(readings)) continue;
    if ((readings as Readonly<Record<string, unknown>>).file === file) imports.add(header.id);
  }
  const things = new Set<string>();
  for (const { header, body } of entries) {
    const origin = body?.[ORIGIN];
    if (typeof origin !== 'object' || origin === null || Array.isArray(origin)) continue;
    const { entry } = origin as Readonly<Record<string, unknown>>;
    if (typeof entry === 'string' && imports.has(entry)) things.add(header.id);
  }
  return things;
};
