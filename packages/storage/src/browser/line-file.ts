import { askFiles, mayHaveFiles } from './file-thread.ts';
import type { End, Page } from './lines.ts';

/** A file of lines in the browser's own file system; what its calls do is told in lines.ts. */
export interface LineFile {
  end(): Promise<End>;
  page(from: number): Promise<Page>;
  add(lines: readonly string[], size: number): Promise<number | null>;
}

/** Opens the file of a name, made where it is missing; null where this browser or address offers no files. */
export type OpenLineFile = (name: string) => Promise<LineFile | null>;

export const openLineFile: OpenLineFile = async (name) => {
  if (!mayHaveFiles()) return null;
  const file: LineFile = {
    end: () => askFiles({ do: 'end', name }) as Promise<End>,
    page: (from) => askFiles({ do: 'page', name, from }) as Promise<Page>,
    add: (lines, size) => askFiles({ do: 'add', name, lines, size }) as Promise<number | null>,
  };
  try {
    await file.end();
    return file;
  } catch {
    return null;
  }
};
